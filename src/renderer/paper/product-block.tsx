import type { WeighingSheet } from '../../core/paper/sheet.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { Blank } from './blank.tsx';

const READINGS = 8;

/** What is recorded when the work is done: temperatures, the product, remarks. */
export function ProductBlock({ sheet }: { readonly sheet: WeighingSheet }) {
  return (
    <>
      {sheet.temperatureLog && <TemperatureLog />}
      <table class="record">
        <tbody>
          <tr>
            <th colSpan={5}>{words.yield.title(sheet.product)}</th>
          </tr>
          {sheet.keeps !== undefined && (
            <tr>
              <td colSpan={5} class="keep">
                {sheet.keeps}
              </td>
            </tr>
          )}
          {(sheet.keep ?? '') !== '' && (
            <tr>
              <td colSpan={5} class="keep">
                {sheet.keep}
              </td>
            </tr>
          )}
          <tr>
            <Blank label={words.yield.dish} />
            <Blank label={words.yield.dishProduct} />
            <Blank label={words.yield.product} />
            <Blank label={sheet.yieldOf} />
            <Blank label={words.yield.doneBy} />
          </tr>
          <tr>
            <Blank label={words.yield.look} span={2} />
            <Blank label={words.yield.kept} />
            <Blank label={words.yield.recovered} />
            <Blank label={words.yield.checkedBy} />
          </tr>
          <tr class="remarks">
            <Blank label={words.yield.remarks} span={5} />
          </tr>
        </tbody>
      </table>
    </>
  );
}

function TemperatureLog() {
  const rows = [words.log.time, words.log.bath, words.log.inside];
  return (
    <table class="record log">
      <tbody>
        <tr>
          <th colSpan={READINGS + 1}>{words.log.title}</th>
        </tr>
        {rows.map((row) => (
          <tr key={row}>
            <td class="log-name">{row}</td>
            {Array.from({ length: READINGS }, (_, at) => (
              <td key={at} class="blank" />
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
