// A workbook with a few plain sheets: numbers as numbers at full precision, everything else as text that is never a formula.
import { strToU8, zipSync, type Zippable } from 'fflate';
import { type Cell, columnName } from '../../core/shelf/import/table.ts';

/** Office Open XML, ECMA-376 part 1 (5th ed.), sections 18.2 and 18.3; packaging as of part 2. */
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006';
const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const SHEET_TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml';

/** Characters a cell of a workbook may hold (ECMA-376 leaves it open; 32,767 is what spreadsheets take). */
export const LONGEST_CELL = 32_767;

export interface SheetOut {
  readonly name: string;
  readonly headings: readonly string[];
  readonly rows: Iterable<readonly Cell[]>;
}

/** The bytes of a workbook with these sheets. */
export function xlsxBytes(sheets: readonly SheetOut[]): Uint8Array {
  const files: Zippable = {
    '[Content_Types].xml': strToU8(contentTypes(sheets.length)),
    '_rels/.rels': strToU8(
      `${HEAD}<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${RELATIONS}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    ),
    'xl/workbook.xml': strToU8(workbook(sheets)),
    'xl/_rels/workbook.xml.rels': strToU8(workbookRelations(sheets.length)),
    'xl/styles.xml': strToU8(STYLES),
  };
  for (const [index, sheet] of sheets.entries()) files[`xl/worksheets/sheet${index + 1}.xml`] = strToU8(sheetXml(sheet));
  // No clock: the same shelf gives the same bytes. 1980 is the first year an archive can name.
  return zipSync(files, { level: 6, mtime: new Date(1980, 0, 2) });
}

function contentTypes(sheets: number): string {
  const parts = Array.from(
    { length: sheets },
    (_, index) => `<Override PartName="/xl/worksheets/sheet${index + 1}.xml" ContentType="${SHEET_TYPE}.worksheet+xml"/>`,
  );
  return `${HEAD}<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${SHEET_TYPE}.sheet.main+xml"/><Override PartName="/xl/styles.xml" ContentType="${SHEET_TYPE}.styles+xml"/>${parts.join('')}</Types>`;
}

function workbook(sheets: readonly SheetOut[]): string {
  const list = sheets.map(({ name }, index) => `<sheet name="${xmlText(name)}" sheetId="${index + 1}" r:id="rId${index + 1}"/>`);
  return `${HEAD}<workbook xmlns="${MAIN}" xmlns:r="${RELATIONS}"><sheets>${list.join('')}</sheets></workbook>`;
}

function workbookRelations(sheets: number): string {
  const list = Array.from(
    { length: sheets },
    (_, index) => `<Relationship Id="rId${index + 1}" Type="${RELATIONS}/worksheet" Target="worksheets/sheet${index + 1}.xml"/>`,
  );
  const styles = `<Relationship Id="rId${sheets + 1}" Type="${RELATIONS}/styles" Target="styles.xml"/>`;
  return `${HEAD}<Relationships xmlns="${PACKAGE}/relationships">${list.join('')}${styles}</Relationships>`;
}

/** Style 1 is bold, for the headings; style 2 is text, so that a cell typed over stays text. */
const STYLES = `${HEAD}<styleSheet xmlns="${MAIN}"><fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="3"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="0" fontId="1" fillId="0" borderId="0" xfId="0" applyFont="1"/><xf numFmtId="49" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`;

/** The headings stay in view while the rows scroll. */
const VIEW =
  '<sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>';

function sheetXml({ headings, rows }: SheetOut): string {
  const lines = [rowXml(1, headings, 1)];
  let number = 1;
  for (const row of rows) {
    number += 1;
    lines.push(rowXml(number, row, 2));
  }
  return `${HEAD}<worksheet xmlns="${MAIN}">${VIEW}<sheetData>${lines.join('')}</sheetData></worksheet>`;
}

function rowXml(number: number, cells: readonly Cell[], style: number): string {
  const written = cells.map((cell, column) => (cell === '' ? '' : cellXml(`${columnName(column)}${number}`, cell, style)));
  return `<row r="${number}">${written.join('')}</row>`;
}

function cellXml(at: string, cell: Cell, style: number): string {
  if (typeof cell === 'number') return `<c r="${at}"><v>${cell}</v></c>`;
  return `<c r="${at}" s="${style}" t="inlineStr"><is><t xml:space="preserve">${xmlText(cell)}</t></is></c>`;
}

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/**
 * Text as XML takes it. What XML cannot hold, or would change, is written `_xHHHH_` (ECMA-376 part 1, section 22.4.2.4),
 * and so is a `_x` that could be taken for one.
 */
function xmlText(text: string): string {
  return (
    text
      // Readers make one line feed of CR LF; with a CR more, CR LF is what is left.
      .replaceAll('\r\n', '\r\r\n')
      .replaceAll(/_(?=x[0-9A-Fa-f]{4}_)/g, '_x005F_')
      .replaceAll(/[&<>"]/g, (sign) => ENTITIES[sign] ?? sign)
      .replaceAll(
        // oxlint-disable-next-line no-control-regex
        /[\u0000-\u0008\u000b-\u001f\ufffe\uffff]/g,
        (sign) => `_x${sign.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`,
      )
  );
}
