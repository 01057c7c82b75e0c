import type { StageVolume } from '../plan/result.ts';
import type { DecimalMark } from '../quantity/format.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText, percentText } from './amounts.ts';
import type { WeighingSheet } from './sheet.ts';

/** A fill past what is allowed by less than this, as a part, is binary noise. */
const ROUNDING = 1e-9;

/** The first vessel with its fullest stage, and the vessels that follow it by name; each stage says its own fill. */
export function vesselBox(stages: readonly StageVolume[], mark: DecimalMark): WeighingSheet['boxes'][number] {
  const starts = stages.filter((stage, at) => at === 0 || stage.newVessel);
  const [first, second] = starts;
  if (!first) return { title: words.boxes.vessel, strong: '', lines: [words.noVessel] };
  const own = stages.slice(0, second ? stages.indexOf(second) : stages.length);
  const fullest = own.reduce((most, stage) => (stage.volume.value > most.volume.value ? stage : most), first);
  const later = starts.slice(1).map(nameOf);
  return {
    title: words.boxes.vessel,
    strong: nameOf(fullest),
    lines: [
      ...(fullest.volume.value === 0 ? [] : [fillText(fullest, mark)]),
      ...(later.length > 0 ? [words.thenVessels(later.join(', '))] : []),
    ],
  };
}

/**
 * "100 mL flask, filled to 48.0 mL, 48 %; half at most"; the name is left out where the apparatus says it already. A
 * stage that goes on in the vessel of the one before says so, and what runs off through a filter needs room of its own.
 */
export function vesselText(stage: StageVolume, goesOn: boolean, mark: DecimalMark): string {
  const name = nameOf(stage);
  if (stage.volume.value === 0) return name;
  const said = goesOn && stage.vessel ? words.stillIn(name) : name;
  const vessel = stage.apparatus.includes(name) ? fillText(stage, mark) : `${said}, ${fillText(stage, mark)}`;
  return stage.runsOff && stage.runsOff.value > 0 ? `${vessel} · ${words.runsOff(amountText(stage.runsOff, mark))}` : vessel;
}

function nameOf({ vessel, volume }: StageVolume): string {
  return vessel?.name ?? (volume.value === 0 ? words.volumeUnknown : words.noVessel);
}

function fillText(stage: StageVolume, mark: DecimalMark): string {
  const volume = amountText(stage.volume, mark);
  if (stage.fill === null) return words.volumeOnly(volume);
  const over = stage.fill > stage.most * (1 + ROUNDING);
  const filled = (over ? words.overfilled : words.filledTo)(volume, percentText(Math.round(stage.fill * 100), mark));
  return `${filled}; ${words.atMost(fractionText(stage.most, mark))}`;
}

function fractionText(fraction: number, mark: DecimalMark): string {
  if (Math.abs(fraction - 0.5) < 1e-3) return words.fractions.half;
  if (Math.abs(fraction - 2 / 3) < 0.01) return words.fractions.twoThirds;
  return percentText(Math.round(fraction * 100), mark);
}
