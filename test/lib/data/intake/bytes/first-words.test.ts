import { describe, expect, it } from 'vitest';
import { inspect } from '#lib/data/intake/index.ts';
import { firstWordsOf } from '#lib/data/intake/bytes/first-words.ts';

describe('the first words beyond ASCII', () => {
  it('are three at most, whole, and no more than 40 signs each', () => {
    expect(firstWordsOf('plain, café;Ünal|福岡 and ñandú')).toEqual(['café', 'Ünal', '福岡']);
    expect(firstWordsOf('nothing here')).toEqual([]);
    expect(firstWordsOf(`${'é'.repeat(60)} x`)).toEqual(['é'.repeat(40)]);
  });

  it('are those of the encoding that a person chose', async () => {
    const text = 'Ticket,End (UTC),Station,Tail,Volume (L),Supplier\nA,2031-07-01T10:00Z,J,Q,8000,Béla\n';
    const source = { name: 'a.csv', blob: new Blob([text]) };
    const words = async (answer: string) => {
      const options = {
        remembered: () => Promise.resolve(null),
        stations: [],
        answers: [{ id: 'encoding', answer }]
      };
      return (await inspect(source, options)).firstWords;
    };
    expect(await words('utf-8')).toEqual(['Béla']);
    expect(await words('windows-1252')).toEqual(['BÃ©la']);
  });
});
