import { shelfImportWords } from '../../src/core/words/shelf-import-words.ts';
import { deflateRawSync } from 'node:zlib';
import { strToU8, zipSync } from 'fflate';
import * as fc from 'fast-check';
import { beforeEach, describe, expect, test } from 'vitest';
import type { FileChoices, FilePreview } from '../../src/core/port/files.ts';
import { indexReference } from '../../src/core/reference.ts';
import { FileSession } from '../../src/main/files/file-session.ts';
import { UNWATCHED } from '../../src/main/files/limits.ts';
import { heldBottles } from '../../src/main/store/bottle-from-file.ts';
import { shelfCsv } from '../../src/main/files/shelf-tables.ts';
import { onlyCells } from '../../src/main/files/unpack.ts';
import { xlsxBytes } from '../../src/main/files/write-xlsx.ts';
import type { Database } from '../../src/main/store/database.ts';
import { Refusal } from '../../src/main/store/refusal.ts';
import { readReferenceRows } from '../../src/main/tables.ts';
import { openBook, steadyClock, type Workbook } from './workbook-fixture.ts';

// Every file here ends in words, and writes nothing.
const reference = indexReference(readReferenceRows());
const watch = { reading: UNWATCHED, judging: UNWATCHED };
let book: Workbook;
let database: Database;
beforeEach(() => {
  book = openBook({ empty: true });
  database = book.keeper.database();
});

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const changes = (): unknown => database.get('SELECT total_changes() AS count');

interface Shown {
  readonly session: FileSession;
  readonly preview: FilePreview;
}

async function shown(content: Uint8Array, choices: FileChoices = {}): Promise<Shown> {
  const session = new FileSession('a file', content, reference, steadyClock());
  return { session, preview: await session.preview(choices, database, watch) };
}

async function refusal(content: Uint8Array, choices: FileChoices = {}): Promise<string> {
  const before = changes();
  try {
    await shown(content, choices);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    expect(changes()).toEqual(before);
    return error.message;
  }
  throw new Error('the file was not refused');
}

/** The reasons for which rows are refused, each with its row and column. */
async function reasons(text: string, choices: FileChoices = {}): Promise<readonly string[]> {
  const { session, preview } = await shown(bytes(text), choices);
  if (preview.at !== 'table') throw new Error('no table');
  return session
    .page('refused', 0, 100)
    .rows.flatMap((row) => row.problems.map((one) => `${row.number} ${one.column}: ${one.words}`));
}

describe('files that are refused as a whole', () => {
  const line = 'x'.repeat(10_000_000);
  test.each<[string, () => Uint8Array, RegExp]>([
    ['nothing at all', () => bytes(''), /empty/],
    ['headings only of blanks', () => bytes('\n\n  \n'.repeat(0) + ',,,\n,,,\n'), /no row with anything/],
    ['10 MB in one line', () => bytes(line), /Row 1 has a field of more than 400,000 characters/],
    ['10 MB in one line below headings', () => bytes(`material,left\n${line},1 g\n`), /Row 2 has a field of more than/],
    ['a quote that is never closed, 10 MB', () => bytes(`material,left\nbenzil,1 g\n"${line}`), /Row 3 has a field of more than/],
    ['a million columns', () => bytes(`material${',x'.repeat(1_000_000)}\n`), /Row 1 has more than 200 columns/],
    [
      'a million columns in a row',
      () => bytes(`material,left\nbenzil,1 g${',x'.repeat(1_000_000)}\n`),
      /Row 2 has more than 200 columns/,
    ],
    [
      'more cells than may be',
      () => bytes(`material,left\n${`${',x'.repeat(199)}\n`.repeat(20_200)}`),
      /more than 4,000,000 cells/,
    ],
    ['more rows than may be', () => bytes(`material,left\n${'benzil,1 g\n'.repeat(200_001)}`), /more than 200,000 rows/],
    [
      'lines and lines of nothing',
      () => bytes(`material,left\nbenzil,1 g\n${',\n'.repeat(1_100_000)}`),
      /more than 200,000 rows/,
    ],
    ['a web page called .xls', () => bytes('\ufeff<html><table><tr><td>material</td></tr></table></html>'), /is a web page/],
    ['a PDF called .csv', () => bytes('%PDF-1.7\n%âãÏÓ'), /is a PDF/],
    ['a picture called .xlsx', () => new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10]), /a picture \(PNG\)/],
    ['an old workbook called .xlsx', () => Buffer.from(`d0cf11e0a1b11ae1${'00'.repeat(600)}`, 'hex'), /old kind \(XLS\)/],
    ['an archive that is no workbook', () => zipSync({ 'hello.txt': strToU8('hello') }), /archive, but no XLSX/],
    ['the first bytes of an archive', () => Buffer.from('504b030414000000', 'hex'), /no XLSX workbook|damaged/],
    ['nothing but blanks', () => bytes('\n\n   \n'), /no row with anything/],
    ['NULs in a text of an even length', () => bytes('material,left\nben\0zil,1 g\n'), /NUL|no text/],
    ['NULs in a text', () => bytes('material,left\nben\0zil,1 g\n'.replace('left', 'lef')), /NUL|no text/],
  ])('%s', async (_what, content, words) => {
    expect(await refusal(content())).toMatch(words);
  });

  test('a text that is not in the encoding that was chosen', async () => {
    expect(await refusal(new Uint8Array([0x61, 0xff, 0x62]), { encoding: 'utf-8' })).toMatch(/cannot be read as UTF-8/);
    expect(await refusal(new Uint8Array([0x61, 0x00, 0x00, 0xd8]), { encoding: 'utf-16le' })).toMatch(
      /cannot be read as UTF-16LE/,
    );
  });

  test('two columns for one thing', async () => {
    const mapping = [{ field: 'name' as const }, { field: 'name' as const }];
    expect(await refusal(bytes('a,b\n1,2\n'), { mapping })).toMatch(/Two columns are both taken as material/);
  });
});

describe('workbooks that want to be more than they are', () => {
  const sheet = (inner: string): Uint8Array =>
    zipSync({
      '[Content_Types].xml': strToU8('<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>'),
      'xl/workbook.xml': strToU8(
        '<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="a" sheetId="1" r:id="rId1"/></sheets></workbook>',
      ),
      'xl/_rels/workbook.xml.rels': strToU8(
        '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>',
      ),
      'xl/worksheets/sheet1.xml': strToU8(
        `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">${inner}</worksheet>`,
      ),
    });

  test('a bomb: a few kilobytes that unpack to gigabytes', async () => {
    const zeros = Buffer.alloc(1_000_000, 0x20);
    const many: Record<string, Uint8Array> = {};
    for (let index = 0; index < 40; index += 1) many[`xl/worksheets/s${index}.xml`] = zeros;
    const book = zipSync({ ...many, 'xl/workbook.xml': strToU8('<workbook/>') });
    expect(book.length).toBeLessThan(100_000);
    expect(() => onlyCells(book, 20_000_000)).toThrow(/Unpacked, the file would be larger than 20 MB/);
  });

  test('a part that says it is small and is not', () => {
    const book = Buffer.from(zipSync({ 'xl/workbook.xml': Buffer.alloc(5_000_000, 0x20) }));
    // The size after unpacking, in the directory and before the part: one byte.
    for (let at = 0; at < book.length - 4; at += 1) if (book.readUInt32LE(at) === 5_000_000) book.writeUInt32LE(1, at);
    expect(() => onlyCells(book, 1_000_000)).toThrow(/Unpacked, the file would be larger than 1 MB/);
    expect(deflateRawSync(Buffer.alloc(10)).length).toBeGreaterThan(0);
  });

  test('a small archive with more cells than may be', () => {
    const row = `<row>${'<c><v>1</v></c>'.repeat(100)}</row>`;
    expect(() => onlyCells(sheet(`<sheetData>${row.repeat(1000)}</sheetData>`), 10_000_000, 99_999)).toThrow(
      /more than .* cells/,
    );
    expect(() => onlyCells(sheet(`<sheetData>${row.repeat(1000)}</sheetData>`), 10_000_000, 110_000)).not.toThrow();
  });

  test('a cell at the far end of the sheet, and a range that claims all of it', async () => {
    const far = sheet(
      '<dimension ref="A1:XFD1048576"/><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>material</t></is></c><c r="XFD1"><v>1</v></c></row></sheetData>',
    );
    expect(await refusal(far)).toMatch(/Row 1 has more than 200 columns/);
    const low = sheet(
      '<dimension ref="A1:XFD1048576"/><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>material</t></is></c></row><row r="1048576"><c r="A1048576"><v>1</v></c></row></sheetData>',
    );
    const { session } = await shown(low);
    expect(session.page('all', 0, 5).rows).toMatchObject([{ number: 1_048_576, fate: 'refused', name: '1' }]);
  });

  test.each([
    ['a column behind the last one', '<row r="2"><c r="ZZZZZZ2"><v>1</v></c></row>'],
    ['a row behind the last one', '<row r="1048577"><c r="A1048577"><v>1</v></c></row>'],
    ['a row below nought', '<row r="-5"><c r="A-5"><v>1</v></c></row>'],
    ['one place that is there twice', '<row r="2"><c r="A2"><v>1</v></c><c r="A2"><v>2</v></c></row>'],
    ['one row that is there twice', '<row r="2"><c r="A2"><v>1</v></c></row><row r="2"><c r="A2"><v>2</v></c></row>'],
    ['a cell of another row', '<row r="2"><c r="A3"><v>1</v></c></row>'],
  ])('no cell is lost or moved without a word: %s', async (_what, rows) => {
    const head = '<row r="1"><c r="A1" t="inlineStr"><is><t>material</t></is></c></row>';
    expect(await refusal(sheet(`<sheetData>${head}${rows}</sheetData>`))).toMatch(/damaged, or its parts contradict/);
  });

  test('a day that is written as a day is a day, and no amount', async () => {
    const text = (at: string, words: string) => `<c r="${at}" t="inlineStr"><is><t>${words}</t></is></c>`;
    const book = sheet(
      `<sheetData><row r="1">${text('A1', 'material')}${text('B1', 'left (g)')}${text('C1', 'received')}</row>
       <row r="2">${text('A2', 'benzil')}<c r="B2" t="d"><v>2024-01-01</v></c><c r="C2" t="d"><v>2024-01-01T00:00:00</v></c></row></sheetData>`,
    );
    const { session } = await shown(book);
    const [row] = session.page('all', 0, 5).rows;
    expect(row?.problems.map(({ column }) => column)).toEqual(['left (g)']);
  });

  test('formulas are never evaluated: what was shown last is read, and nothing where nothing was', async () => {
    const book = sheet(
      '<sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>material</t></is></c><c r="B1" t="inlineStr"><is><t>left</t></is></c></row><row r="2"><c r="A2" t="str"><f>HYPERLINK("http://x","y")</f><v>benzil</v></c><c r="B2"><f>1+1</f></c></row></sheetData>',
    );
    const { session } = await shown(book);
    expect(session.page('all', 0, 5).rows).toMatchObject([{ fate: 'refused', name: 'benzil', left: '' }]);
  });

  test('any byte of a workbook changed, cut or put in: words or a table, never anything thrown', async () => {
    const good = xlsxBytes([
      {
        name: 'a',
        headings: ['material', 'left'],
        rows: [
          ['benzil', '1 g'],
          ['ethanol', '5 mL'],
        ],
      },
    ]);
    const spoil = fc.record({ at: fc.nat(good.length), cut: fc.nat(20), put: fc.uint8Array({ maxLength: 10 }) });
    await fc.assert(
      fc.asyncProperty(spoil, async ({ at, cut, put }) => {
        const spoilt = Buffer.concat([good.subarray(0, at), put, good.subarray(at + cut)]);
        try {
          await shown(spoilt);
        } catch (error) {
          expect(error).toBeInstanceOf(Refusal);
        }
      }),
      { numRuns: 100 },
    );
  });
});

describe('why rows are refused, at one view', () => {
  test('each reason once with how many rows, whatever their own values; a reason leads to its rows', async () => {
    const lines = Array.from({ length: 30 }, (_, at) => `L${at};benzil;134-81-6;${at + 1},250 g;03/0${1 + (at % 3)}/2029`);
    const text = ['bottle;material;CAS;left;expiry', ...lines, 'X;benzil;119-53-9;1 g;', 'Y;benzil;134-81-6;1 g;'].join('\n');
    const { session, preview } = await shown(bytes(text));
    if (preview.at !== 'table') throw new Error('no table');
    expect(preview.reasons.map(({ column, rows }) => [column, rows])).toEqual([
      ['left', 30],
      // 03/03/2029 is one day, whichever comes first.
      ['expiry', 20],
      ['CAS', 1],
    ]);
    expect(preview.reasons[0]?.words).toBe('is 1,250 a decimal or thousands? Write 1.250 or 1250');
    const page = session.page('refused', 5, 3, 1);
    expect([page.total, page.rows.map((row) => row.label)]).toEqual([20, ['L7', 'L9', 'L10']]);
    expect(session.page('refused', 0, 5, 2).rows.map((row) => row.label)).toEqual(['X']);
  });
});

describe('rows that are refused, each at its row and column', () => {
  test.each<[string, string, readonly RegExp[]]>([
    ['a row too short', 'material,left,place\nbenzil,1 g,A\nbenzil,1 g\n', [/^3 : the row has 2 fields, the headings are 3/]],
    ['a row too long', 'material,left\nbenzil,1 g,what is this\n', [/^2 : the row has 3 fields/]],
    ['a quote inside a plain field', 'material,left\nben"zil,1 g\n', [/^2 material: a quote stands inside/]],
    ['text behind a closing quote', 'material,left\n"ben"zil,1 g\n', [/^2 material: (a quote|text)/]],
    ['1"2 in a number', 'material,left\nbenzil,1"2 g\n', [/^2 left: a quote stands inside/]],
    ['a quote that is never closed', 'material,left\n"benzil,1 g\nethanol,2 mL\n', [/^2 material: a quote is opened here/]],
    ['a formula for a number', 'material,left\nbenzil,=1+1\n', [/^2 left: a number is expected here/]],
    [
      'a formula for a name',
      "material,left\n=cmd|'/c calc'!A0,1 g\n",
      [/^2 material: this looks like the formula of a spreadsheet/],
    ],
    [
      'a formula for a name, by its sign',
      'material,left\n@SUM(1+1),1 g\n-1+2,1 g\n',
      [/^2 material: this looks like/, /^3 material: this/],
    ],
    ['a formula for a lot', 'material,lot,left\nbenzil,=A1,1 g\n', [/^2 lot: this looks like the formula/]],
    ['1,234', 'material;left\nbenzil;1,234 g\n', [/^2 left: is 1,234 a decimal or thousands/]],
    ['1.234 among decimal commas', 'material;left\nbenzil;1.234 g\nbenzil;0,5 g\n', [/^2 left: is 1.234 a decimal or thousands/]],
    ['no unit', 'material,left\nbenzil,12\n', [/^2 left: a unit is needed/]],
    ['moles', 'material,left\nbenzil,1 mol\n', [/^2 left: an amount in g or mL is expected/]],
    [
      'a percentage without its basis',
      'material,strength,left\nnitric acid,68 %,1 L\n',
      [/^2 strength: a percentage needs its basis/],
    ],
    [
      'stronger than pure',
      'material,CAS,strength,left\nsulfuric acid,7664-93-9,120 % w/w,1 L\n',
      [/^2 strength: a strength needs to be at most 100/],
    ],
    ['an isomer’s number', 'material,CAS,left\nbenzil,119-53-9,1 g\n', [/^2 CAS: this CAS number belongs to benzoin/]],
    ['a wrong check digit', 'material,CAS,left\nbenzil,134-81-7,1 g\n', [/^2 CAS: the check digit/]],
    [
      'day or month',
      'material,left,expiry\nbenzil,1 g,03/04/2027\n',
      [/^2 expiry: is 03\/04\/2027 written with the day or the month first/],
    ],
    [
      'blanks or apostrophes between thousands',
      "material;left\nbenzil;2 500 g\nbenzil;1'000,5 g\n",
      [/^2 left: 2 500 has something between its digits: write 2500/, /^3 left: 1'000,5 has .*write 1000,5/],
    ],
    ['no such day', 'material,left,expiry\nbenzil,1 g,2027-02-30\n', [/^2 expiry: there is no such day/]],
    ['no amount', 'material,place\nbenzil,A\n', [/^2 : a new bottle needs an amount/]],
    ['no material', 'material,left\n,1 g\n', [/^2 : a new bottle needs a material/]],
    ['a formula that is none', 'material,formula,left\nx,C14Hx,1 g\n', [/^2 formula: .*not an element/]],
    ['a structure that is not the formula’s', 'material,formula,SMILES,left\nx,C14H10O2,CCO,1 g\n', [/^2 SMILES: /]],
    ['both assay and strength', 'material,assay,strength,left\nx,98,5 % w/w,1 g\n', [/^2 assay: a bottle has either/]],
    [
      'one label, two contents',
      'bottle,material,left\nA,benzil,1 g\nB,benzil,1 g\nA,benzil,2 g\n',
      [/^2 : the label A .*first in row 2/, /^4 : the label A/],
    ],
    ['a range', 'material,conc,left\nx,36.5–38 % w/w,1 L\n', [/^2 conc: 36\.5–38 % w\/w is a range: write the one value/]],
    ['two solvents', 'material,conc,solvent,left\nx,2 M in THF,hexane,1 L\n', [/^2 conc: two solvents are named: hexane .* THF/]],
    ['a solvent that cannot be kept', 'material,conc,left\nx,2 M in \ud800,1 L\n'.replace('\ud800', '\u0007'), [/^2 /]],
    [
      'labels and lots a spreadsheet has shortened',
      'label,material,left,lot\n4.00638E+12,benzil,1 g,\n4.00638E+12,benzil,1 g,\nx,benzil,1 g,"1,2E+10"\n',
      [/^2 label: a spreadsheet has shortened/, /^3 label: a spreadsheet has shortened/, /^4 lot: a spreadsheet has shortened/],
    ],
    ['a control character', 'material,left\nben\u0007zil,1 g\n', [/^2 material: control characters/]],
    ['a turned text', 'material,left\nben\u202ezil,1 g\n', [/^2 material: control characters/]],
  ])('%s', async (_what, text, expected) => {
    const said = await reasons(text);
    expect(said).toHaveLength(expected.length);
    for (const [index, pattern] of expected.entries()) expect(said[index]).toMatch(pattern);
  });

  test.each<[string, string, FileChoices, string, readonly string[]]>([
    [
      'a least assay',
      'material,purity,left\nx,≥ 99.5 %,1 g\n',
      {},
      'assay 99.5 % w/w',
      ['“≥ 99.5 %” is a least value: taken as 99.5 %'],
    ],
    ['a least assay', 'material,purity,left\nx,98+%,1 g\n', {}, 'assay 98 % w/w', ['“98+%” is a least value: taken as 98 %']],
    ['brackets around the basis', 'material,strength,left\nx,20% (w/w),1 L\n', {}, '20 % w/w', []],
    ['a solvent behind the strength', 'material,conc,left\nx,"2,5 M in hexanes",1 L\n', {}, '2.5 mol/L in hexanes', []],
    ['water behind it', 'material,conc,left\nx,37 wt. % in H2O,1 L\n', {}, '37 % w/w', []],
    ['a symbol before it', 'material,formula,conc,left\nx,HCl,c(HCl) = 0.1 mol/L,1 L\n', {}, '0.1 mol/L', []],
    ['the substance behind it', 'material,formula,conc,left\nx,HCl,37 % w/w HCl,1 L\n', {}, '37 % w/w', []],
    ['an alcoholic solution', 'material,conc,left\nx,0.5 M ethanolic,1 L\n', {}, '0.5 mol/L in ethanol', []],
    ['words for a basis', 'material,conc,left\nx,30 Gew.-%,1 L\n', {}, '30 % w/w', []],
    ['an estimate', 'material,conc,left\nx,ca. 25 wt%,1 L\n', {}, '25 % w/w', ['“ca. 25 wt%” is only about: taken as 25 wt%']],
    [
      'the purity of a solid in the column of strengths',
      'CAS,conc,left\n134-81-6,98 % w/w,1 g\n',
      {},
      'assay 98 % w/w',
      ['98 % w/w without a solvent: taken as the assay (purity), not as a solution'],
    ],
    ['a strong solution of a solid', 'CAS,conc,left\n1310-73-2,50 % w/w,1 L\n', {}, '50 % w/w', []],
    ['millimoles a litre', 'material,conc,left\nx,500 mM,1 L\n', {}, '0.5 mol/L', []],
    ['a column in millimoles a litre', 'material,conc. (mM),left\nx,35,1 L\n', {}, '0.035 mol/L', []],
    [
      'a place with its temperature, a note as it likes',
      'material,place,note,left\nx,-20 °C freezer,= see lid,1 g\n',
      {},
      'neat',
      [],
    ],
    [
      'only a month',
      'material,left,expiry\nx,1 g,02/2028\n',
      {},
      'neat',
      ['only the month of the use-by date is given: taken as its last day, 2028-02-29'],
    ],
    [
      'a percent sign where the column has the basis',
      'material,strength,left\nx,37 %,1 mL\n',
      { mapping: [{ field: 'name' }, { field: 'strength', unit: '% w/w' }, { field: 'left' }] },
      '37 % w/w',
      [],
    ],
    [
      'a strength that is not given, of what is sold dissolved',
      'CAS,left\n7697-37-2,1 L\n',
      {},
      'strength unknown',
      ['no strength is given: taken in as of unknown strength'],
    ],
  ])('%s is taken and told: %s', async (_what, text, choices, form, says) => {
    const { session } = await shown(bytes(text), choices);
    const [row] = session.page('all', 0, 1).rows;
    expect(row).toMatchObject({ fate: 'new', form });
    // That x has no formula is told with each: it is not what these are about.
    expect(row?.says.filter((one) => one !== shelfImportWords.remarks.noFormula)).toEqual(says);
  });

  test.each([
    ['2026/03/04', '2026-03-04'],
    ['2026.3.4', '2026-03-04'],
    ['"March 5, 2026"', '2026-03-05'],
    ['5. März 2026', '2026-03-05'],
    ['31-Dez-2026', '2026-12-31'],
    ['14 juil. 2026', '2026-07-14'],
    ['Mar 2027', '2027-03-31'],
    ['Febr. 2028', '2028-02-29'],
  ])('a day that can be read in one way only: %s', async (written, day) => {
    const { session, preview } = await shown(bytes(`bottle,material,left,expiry\nA,benzil,1 g,${written}\n`));
    if (preview.at !== 'table') throw new Error('no table');
    session.write(preview.preview, database);
    expect(heldBottles(database)).toMatchObject([{ useBy: day }]);
  });

  test('a text whose lines end in several ways, with quotes in it; columns parted by bars', async () => {
    const mixed = await shown(bytes('bottle;material;left\r\nA;"benzil";1 g\nB;benzil;2 g\rC;"ben\nzil";3 g\r\n'));
    expect(mixed.session.page('all', 0, 5).rows.map((row) => [row.number, row.label, row.fate])).toEqual([
      [2, 'A', 'new'],
      [3, 'B', 'new'],
      [4, 'C', 'refused'],
    ]);
    const bars = await shown(bytes('bottle|material|left\nA|benzil|1,5 g\nB|benzil|2 dL\n'));
    expect(bars.session.page('all', 0, 5).rows).toMatchObject([{ left: '1.5 g' }, { left: '200 mL' }]);
  });

  test('what is in a text and not seen tells no two labels apart: soft hyphens, blanks of no width', async () => {
    const text =
      'Label,Name,Amount\nA\u200b1,ben\u00adzil,5\u2060 g\n\u200bA1,benzil,6 g\nA2,\u200b,5 g\nA\u200b3,ben\u00adzil,5\u2060 g\n';
    const { session } = await shown(bytes(text));
    expect(session.page('all', 0, 5).rows.map((row) => [row.label, row.name, row.left, row.fate])).toEqual([
      ['A1', 'benzil', expect.stringMatching(/^5\sg$/), 'refused'],
      ['A1', 'benzil', expect.stringMatching(/^6\sg$/), 'refused'],
      ['A2', '', expect.stringMatching(/^5\sg$/), 'refused'],
      ['A3', 'benzil', expect.stringMatching(/^5\sg$/), 'new'],
    ]);
  });

  test('our own table saved by a spreadsheet, its labels shortened, is told as well', async () => {
    await book.must('shelf.import', {
      text: JSON.stringify({
        backweigh: 'shelf',
        version: 1,
        materials: { b: { name: 'benzil' } },
        bottles: [{ id: '4006381333931', material: 'b', form: { kind: 'neat' }, left: 1, unit: 'g' }],
      }),
    });
    const own = shelfCsv(database).replace('4006381333931', '4.00638E+12');
    expect(await reasons(own)).toEqual([expect.stringMatching(/^2 bottle: a spreadsheet has shortened/)]);
  });

  test('a table without headings loses no row: its first one is a bottle', async () => {
    const text = 'Q1,benzil,1 g\nQ2,benzil,2 g\nQ3,benzil\n';
    const bare = await shown(bytes(text), { headingRow: 0 });
    expect(bare.preview).toMatchObject({ at: 'table', headingRow: 0, mapping: [null, null, null] });
    const mapping = (['label', 'name', 'left'] as const).map((field) => ({ field }));
    const { session } = await shown(bytes(text), { headingRow: 0, mapping });
    expect(session.page('all', 0, 5).rows.map((row) => [row.number, row.label, row.fate])).toEqual([
      [1, 'Q1', 'new'],
      [2, 'Q2', 'new'],
      [3, 'Q3', 'refused'],
    ]);
  });

  test('several bottles in one row are not one bottle', async () => {
    expect(await reasons('material,left\nx,4 x 2.5 L\n')).toEqual(['2 left: a row is one bottle: give 4 rows, one for each']);
  });

  test('what the column says answers the question', async () => {
    const text = 'material;left;expiry\nbenzil;1,234 g;03/04/2027\nbenzil;1.234,5 g;31/12/2027\n';
    const mapping = [
      { field: 'name' as const },
      { field: 'left' as const, decimal: 'comma' as const },
      { field: 'useBy' as const, dates: 'day' as const },
    ];
    const { session } = await shown(bytes(text), { mapping });
    expect(session.page('all', 0, 5).rows.map((row) => [row.fate, row.left])).toEqual([
      ['new', '1.234 g'],
      ['new', '1234.5 g'],
    ]);
    const other = await reasons('material;left\nbenzil;1.234,5 g\n', {
      mapping: [{ field: 'name' }, { field: 'left', decimal: 'point' }],
    });
    expect(other).toEqual(['2 left: a number with a decimal point is expected here, such as 1234.5']);
  });

  test('any text at all is a table or words, never anything thrown, and nothing is written', async () => {
    const before = changes();
    const piece = fc.oneof(
      fc.constantFrom(
        'material',
        'left',
        'benzil',
        '1 g',
        ',',
        ';',
        '\t',
        '\n',
        '\r\n',
        '"',
        "'=",
        '\ufeff',
        '1,234',
        'strength',
        '68 % w/w',
        '\u2028',
        '__proto__',
      ),
      fc.string({ unit: 'binary', maxLength: 5 }),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(piece, { maxLength: 60 }), async (pieces) => {
        try {
          await shown(Buffer.from(pieces.join('')));
        } catch (error) {
          expect(error).toBeInstanceOf(Refusal);
        }
      }),
      { numRuns: 100 },
    );
    expect(changes()).toEqual(before);
  });
});

describe('encodings', () => {
  const text = 'material,left,place\nbenzil,1 g,Kühlraum µ\n';
  const utf16 = (big: boolean): Uint8Array => {
    const little = Buffer.from(`\ufeff${text}`, 'utf16le');
    return big ? little.swap16() : little;
  };
  test.each<[string, Uint8Array, string]>([
    ['UTF-8', bytes(text), 'utf-8'],
    ['UTF-8 with its mark', bytes(`\ufeff${text}`), 'utf-8'],
    ['UTF-16 little end first', utf16(false), 'utf-16le'],
    ['UTF-16 big end first', utf16(true), 'utf-16be'],
  ])('%s says itself', async (_what, content, encoding) => {
    const { session, preview } = await shown(content);
    expect(preview).toMatchObject({ at: 'table', encoding, counts: { new: 1 } });
    expect(session.page('all', 0, 1).rows[0]?.place).toBe('Kühlraum µ');
  });

  test('anything else is asked for, with the lines in which it matters', async () => {
    const content = Buffer.from(text, 'latin1');
    const { preview } = await shown(content);
    expect(preview).toMatchObject({ at: 'encoding', proposed: 'windows-1252' });
    expect(preview.at === 'encoding' && preview.samples.map((one) => [one.encoding, one.lines])).toEqual([
      ['windows-1252', ['benzil,1 g,Kühlraum µ']],
      ['windows-1250', ['benzil,1 g,Kühlraum µ']],
      ['macintosh', ['benzil,1 g,K¸hlraum µ']],
    ]);
    const { session } = await shown(content, { encoding: 'windows-1252' });
    expect(session.page('all', 0, 1).rows[0]?.place).toBe('Kühlraum µ');
  });

  test('two bytes a letter without a mark is asked for too', async () => {
    const { preview } = await shown(Buffer.from(text, 'utf16le'));
    expect(preview).toMatchObject({ at: 'encoding', proposed: 'utf-16le' });
  });

  test.each([',', ';', '\t'])('separator %j is found', async (separator) => {
    const lines = [
      ['material', 'left', 'lot'],
      ['benzil', '1 g', '"7;8,9"'],
    ].map((line) => line.join(separator));
    const { preview } = await shown(bytes(`${lines.join('\n')}\n`));
    expect(preview).toMatchObject({ at: 'table', separator, counts: { new: 1, refused: 0 } });
  });

  test('a first line that names the separator, line ends of every kind, headings below a title', async () => {
    const { preview } = await shown(bytes('sep=;\r\nOur shelf;;\rmaterial;left;lot\nbenzil;1 g;7\r\nethanol;5 mL;8'));
    expect(preview).toMatchObject({ at: 'table', separator: ';', headingRow: 3, counts: { new: 2, refused: 0 } });
  });
});
