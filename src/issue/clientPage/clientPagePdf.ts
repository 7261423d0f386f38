import type { Job } from '../../document/job.ts';
import { runAsTraced } from '../../measure/runAsTraced.ts';
import { wholeLengthOf } from '../../measure/straights.ts';
import { type Quote, quoteOf } from '../../quote/quote.ts';
import type { QuotedRun } from '../../quote/quotedRun.ts';
import type { QuoteSettings } from '../../quote/quoteSettings.ts';
import { nameOfWanted } from '../../stock/nameOfWanted.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import { type DisplayUnit, formatLength } from '../../units/formatLength.ts';
import { formatMoney } from '../../units/money.ts';
import { type LetterBox, PaperPen, type PenFont } from '../drawing/paperPen.ts';
import { issueCautions } from '../issueCautions.ts';
import type { Paper } from '../settingOut/papers.ts';
import { startPdf } from '../settingOut/pdfPages.ts';
import { capital, ink, quiet } from '../settingOut/planInk.ts';
import { tableBlocks } from '../settingOut/tableBlocks.ts';
import { type ColumnBlock, flowBlocks, textBlock, wrappedLines } from '../settingOut/textFlow.ts';
import { barPicture, turnFor } from './barPicture.ts';
import { barSolids, type RunInPicture } from './barSolids.ts';
import type { PrismStack } from './prism.ts';

/** A fitted run as the client's page takes it. */
export interface ClientRun extends QuotedRun, RunInPicture {}

export interface ClientPageInput {
  readonly job: Job;
  readonly range: StockRange;
  readonly runs: readonly ClientRun[];
  /** Runs that are neither shown nor priced, with the reason. */
  readonly notFitted: readonly { readonly name: string; readonly why: string }[];
  readonly settings: QuoteSettings;
  readonly alsoAsked: readonly string[];
  readonly unit: DisplayUnit;
}

export interface ClientPagePdf {
  readonly bytes: Uint8Array;
  /** Each page's letters in mm of paper, for whoever checks that none lies over another. */
  readonly letters: readonly (readonly LetterBox[])[];
}

/** ISO 216 A4 and US Letter (ANSI/ASME Y14.1 size A), upright. */
const upright: Readonly<Record<'iso' | 'us', Paper>> = {
  iso: { name: 'A4', widthMm: 210, heightMm: 297 },
  us: { name: 'Letter', widthMm: 215.9, heightMm: 279.4 },
};

const edgeMm = 20;
const footMm = 12;
const pictureMostMm = 105;
const gapMm = 5;

/** Runs of one sheet and scale stand as they do there. Of several sheets, the one with the most runs is shown. */
const togetherOf = (
  input: ClientPageInput,
): { readonly stacks: readonly PrismStack[]; readonly turnRad: number } | null => {
  const groups = new Map<string, ClientRun[]>();
  for (const run of input.runs) {
    const key = `${run.run.sheetId} ${run.scale.ratio}`;
    groups.set(key, [...(groups.get(key) ?? []), run]);
  }
  const [first] = [...groups.values()].toSorted((one, other) => other.length - one.length);
  if (!first) return null;
  return {
    stacks: first.flatMap((run) => barSolids(run, input.range)),
    turnRad: turnFor(first.map(({ run }) => runAsTraced(run))),
  };
};

const namesOf = (runs: readonly ClientRun[], range: StockRange): readonly string[] => {
  const items = new Map(range.items.map((item) => [item.id, item]));
  const counts = new Map<string, number>();
  for (const { alternative } of runs)
    for (const { item } of alternative.pieces) {
      const known = items.get(item);
      if (known?.kind === 'station') counts.set(known.name, (counts.get(known.name) ?? 0) + 1);
    }
  return [...counts].map(([name, count]) => (count > 1 ? `${name} (${count})` : name));
};

/** What is offered, in sentences that need no drawing. */
const offered = ({ runs, range, unit }: ClientPageInput): readonly string[] => {
  const lines = runs.map((one) => {
    const { lengthMm } = wholeLengthOf(runAsTraced(one.run), one.scale);
    const modules = one.alternative.pieces.length;
    const made = one.alternative.score.madeToMeasure;
    const extra = made > 0 ? `, ${made} of them made to measure` : '';
    return `${one.name}: ${formatLength(lengthMm, { unit })} of counter in ${modules} stainless ${modules === 1 ? 'piece' : 'pieces'}${extra}.`;
  });
  const stations = namesOf(runs, range);
  return stations.length > 0 ? [...lines, `Stations: ${stations.join(', ')}.`] : lines;
};

const priceRows = (quote: Quote): readonly (readonly [word: string, amount: string])[] => {
  const { totals, settings } = quote;
  return [
    ['Bar, with frames, end panels, joints and shelves', formatMoney(totals.goods)],
    ...(totals.discount.minor > 0
      ? ([
          [
            `Discount, ${settings.discountBasisPoints / 100} %`,
            formatMoney({ ...totals.discount, minor: -totals.discount.minor }),
          ],
        ] as const)
      : []),
    ...(totals.freight ? ([['Freight and unloading', formatMoney(totals.freight)]] as const) : []),
    ...(totals.installation ? ([['Installation', formatMoney(totals.installation)]] as const) : []),
    ...(totals.tax && settings.tax
      ? ([
          ['Net', formatMoney(totals.net)],
          [`${settings.tax.name}, ${settings.tax.basisPoints / 100} %`, formatMoney(totals.tax)],
        ] as const)
      : []),
  ];
};

/** What was asked for and is in no sum: lines without a price, stations without a place, runs without a fit. */
const notInTotal = (input: ClientPageInput, quote: Quote): readonly string[] => [
  ...quote.withoutPrice.map(({ run, name }) => `${run}: ${name} has no price yet.`),
  ...input.runs.flatMap(({ name, problem, alternative }) => {
    const placed = new Set(alternative.pieces.flatMap(({ wanted }) => wanted ?? []));
    return (problem.wanted ?? [])
      .filter(({ id }) => !placed.has(id))
      .map(({ item }) => `${name}: ${nameOfWanted(input.range, item)} has no place in it.`);
  }),
  ...input.notFitted.map(({ name, why }) => `${name}: ${why}`),
];

/** The sums, the last of them large. */
const priceBlock = (font: PenFont, widthMm: number, quote: Quote, isWhole: boolean): ColumnBlock => {
  const pen = new PaperPen(font);
  const rowMm = 5.6;
  let y = -capital.usual - 0.6;
  pen.text({ text: 'Price', at: { x: 0, y }, capitalMm: capital.usual, colour: ink });
  y -= 2;
  const rule = (widthOfLine: number) =>
    pen.line(
      [
        { x: 0, y },
        { x: widthMm, y },
      ],
      { widthMm: widthOfLine, colour: widthOfLine > 0.2 ? ink : quiet },
    );
  rule(0.25);
  const row = (word: string, amount: string, size: number) => {
    y -= rowMm * (size / capital.usual);
    const amountMm = pen.textWidth(amount, size);
    pen.text({
      text: word,
      at: { x: 0, y: y + 1.5 },
      capitalMm: size,
      colour: ink,
      mostMm: widthMm - amountMm - 4,
    });
    pen.text({ text: amount, at: { x: widthMm, y: y + 1.5 }, align: 'end', capitalMm: size, colour: ink });
  };
  for (const [word, amount] of priceRows(quote)) {
    row(word, amount, capital.usual);
    rule(0.13);
  }
  const total = quote.totals.tax ? 'Total' : 'Total without tax';
  row(isWhole ? total : `${total}, not complete`, formatMoney(quote.totals.total), capital.title);
  rule(0.35);
  return { heightMm: -y + 1, picture: pen.picture() };
};

const optionTable = (quote: Quote, unit: DisplayUnit) => ({
  title: 'Other ways to build it',
  columns: [
    { title: 'Run', share: 50 },
    { title: 'Pieces', share: 16, align: 'end' as const },
    { title: 'Made to measure', share: 24, align: 'end' as const },
    { title: 'Left over', share: 20, align: 'end' as const },
    { title: 'Total', share: 24, align: 'end' as const },
    { title: 'Difference', share: 24, align: 'end' as const },
  ],
  rows: quote.options.map((option) => [
    `${option.letter}  ${option.run}`,
    String(option.pieces),
    String(option.madeToMeasure),
    formatLength(option.leftoverMm, { unit }),
    formatMoney(option.total),
    option.isQuoted ? 'as priced' : formatMoney(option.difference),
  ]),
});

/** Two lines to sign on. */
const acceptance = (font: PenFont, widthMm: number): ColumnBlock => {
  const pen = new PaperPen(font);
  const half = (widthMm - 10) / 2;
  for (const [index, word] of ['Place, date', 'Accepted for the client'].entries()) {
    const x = index * (half + 10);
    pen.line(
      [
        { x, y: -14 },
        { x: x + half, y: -14 },
      ],
      { widthMm: 0.18, colour: ink },
    );
    pen.text({ text: word, at: { x, y: -17.5 }, capitalMm: capital.small, colour: quiet, mostMm: half });
  }
  return { heightMm: 20, picture: pen.picture() };
};

/**
 * The client's page: a picture of the bar, what is offered, its price and terms, other ways to build it and what is
 * still open, on as many upright sheets as that takes. The same input gives the same bytes.
 */
export const clientPagePdf = async (
  input: ClientPageInput,
  issued: {
    readonly font: Uint8Array;
    /** ISO 8601 instant. */
    readonly at: string;
    readonly system: 'iso' | 'us';
    readonly legalOwner?: string | undefined;
  },
): Promise<ClientPagePdf> => {
  const { job, range, unit } = input;
  const paper = upright[issued.system];
  const pages = await startPdf(issued.font, {
    title: `${job.name}: offer`,
    subject: 'What is offered, with a picture and its price',
    at: issued.at,
  });
  const { font } = pages;
  const widthMm = paper.widthMm - 2 * edgeMm;
  const heightMm = paper.heightMm - 2 * edgeMm - footMm;
  // What the fits ask is for the architect and the site, and stands in the workbook.
  const forClient = input.runs.map((run) => ({ ...run, questions: [] }));
  const quote = quoteOf(forClient, range, input.settings, input.alsoAsked);
  const missing = notInTotal(input, quote);
  const paragraphs = (heading: string, lines: readonly string[]): readonly ColumnBlock[] =>
    lines.length > 0 ? [textBlock(font, widthMm, { heading, paragraphs: lines })] : [];

  const together = togetherOf(input);
  const drawn =
    together && barPicture(font, together.stacks, together.turnRad, { widthMm, heightMm: pictureMostMm });
  const picture: readonly ColumnBlock[] = drawn
    ? (() => {
        const pen = new PaperPen(font);
        pen.put(drawn.picture, { x: (widthMm - drawn.widthMm) / 2, y: -drawn.heightMm });
        pen.text({
          text: 'A picture of the pieces as offered, isometric and not to scale; cladding and what others supply are not shown.',
          at: { x: 0, y: -drawn.heightMm - 5 },
          capitalMm: capital.small,
          colour: quiet,
          mostMm: widthMm,
        });
        return [{ heightMm: drawn.heightMm + 7, picture: pen.picture() }];
      })()
    : [];
  const until = `This offer is of ${quote.settings.date} and holds until ${quote.validUntil}. ${quote.rounding}`;
  const blocks: readonly ColumnBlock[] = [
    ...picture,
    ...paragraphs('What is offered', offered(input)),
    priceBlock(font, widthMm, quote, missing.length === 0),
    ...paragraphs('Not in the total', missing),
    ...paragraphs('Terms', [until]),
    ...(quote.options.length > 0 ? tableBlocks(font, widthMm, optionTable(quote, unit), heightMm) : []),
    ...paragraphs('Taken for granted', quote.assumptions),
    ...paragraphs('Not included', quote.exclusions),
    ...paragraphs('Still open', quote.questions),
    ...paragraphs('Please note', issueCautions),
    acceptance(font, widthMm),
  ];
  const headLines = [
    [job.client, job.site].filter(Boolean).join(', '),
    [
      quote.settings.number && `Offer ${quote.settings.number}`,
      job.number && `Job ${job.number}`,
      quote.settings.date,
    ]
      .filter(Boolean)
      .join('   '),
  ].filter(Boolean);
  const headMm = 14 + headLines.length * 4.4;
  // The first sheet has a head: as if it stood in the column before everything else.
  const flowed = flowBlocks([{ heightMm: headMm, picture: { content: '', letters: [] } }, ...blocks], {
    count: 1,
    heightMm,
    gapMm,
  });
  const sheets = Math.max(...flowed.map(({ sheet }) => sheet)) + 1;
  const top = paper.heightMm - edgeMm;
  const letters = Array.from({ length: sheets }, (_, sheet) => {
    const pen = new PaperPen(font);
    if (sheet === 0) {
      const [title = job.name] = wrappedLines(job.name, widthMm, (text) =>
        pen.textWidth(text, capital.large),
      );
      pen.text({
        text: title.length < job.name.length ? `${title} …` : title,
        at: { x: edgeMm, y: top - capital.large },
        capitalMm: capital.large,
        colour: ink,
        mostMm: widthMm,
      });
      for (const [index, text] of headLines.entries())
        pen.text({
          text,
          at: { x: edgeMm, y: top - 11 - index * 4.4 },
          capitalMm: capital.usual,
          colour: quiet,
          mostMm: widthMm,
        });
    }
    for (const { block, sheet: on, downMm } of flowed)
      if (on === sheet) pen.put(block.picture, { x: edgeMm, y: top - downMm });
    pen.text({
      text: [issued.legalOwner, job.name].filter(Boolean).join(', '),
      at: { x: edgeMm, y: edgeMm - 6 },
      capitalMm: capital.small,
      colour: quiet,
      mostMm: widthMm - 40,
    });
    pen.text({
      text: `page ${sheet + 1} of ${sheets}`,
      at: { x: paper.widthMm - edgeMm, y: edgeMm - 6 },
      align: 'end',
      capitalMm: capital.small,
      colour: quiet,
    });
    const made = pen.picture();
    pages.addPage(paper, made, new Map());
    return made.letters;
  });
  return { bytes: await pages.bytes(), letters };
};
