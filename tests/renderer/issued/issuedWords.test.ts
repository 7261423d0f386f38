import { describe, expect, it } from 'vitest';
import { commonStem, fileWords, purposeWords, sizeWords } from '../../../renderer/issued/issuedWords.ts';

describe('the words of what was issued', () => {
  it('call files by their kind, without what all their names begin with', () => {
    const names = [
      'The-Tin-Otter-Cellar-setting-out.pdf',
      'The-Tin-Otter-pieces.csv',
      'The-Tin-Otter-workbook.xlsx',
    ];
    const stem = commonStem(names);
    expect(stem).toBe('The-Tin-Otter');
    expect(names.map((name) => fileWords(name, stem))).toEqual(['Setting-out drawing', 'Pieces', 'Workbook']);
    expect(fileWords('The-Tin-Otter-site-measure.csv', stem)).toBe('Site measure');
    expect(fileWords('SHA256SUMS', stem)).toBe('Sums');
    expect(commonStem([])).toBe('');
    expect(commonStem(['alone.pdf'])).toBe('');
  });

  it('say sizes and purposes as people do', () => {
    expect([999, 1_499, 1_250_000].map(sizeWords)).toEqual(['999 B', '1 kB', '1.3 MB']);
    expect([purposeWords('tender'), purposeWords('as-built')]).toEqual(['for tender', 'as built']);
  });
});
