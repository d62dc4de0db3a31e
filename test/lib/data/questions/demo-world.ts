import { demoFiles, type DemoOptions } from '#lib/demo/index.ts';
import { inspect, layoutFrom, readRecords } from '#lib/data/intake/index.ts';
import { Ledger } from '#lib/data/ledger/index.ts';
import { createContext, type QuestionContext } from '#lib/data/questions/index.ts';
import { defaultSettings } from '#lib/data/settings/index.ts';
import { demoSource } from '#lib/worker/demo.ts';

/** The demo's files taken through intake and ledger as the workspace does, identical files once. */
export async function demoContext(options: DemoOptions = {}): Promise<QuestionContext> {
  const settings = demoSource.settings(defaultSettings);
  const ledger = new Ledger();
  const seen = new Set<string>();
  for (const [index, file] of demoFiles(options).entries()) {
    const text = [...file.chunks()].join('');
    if (seen.has(text)) continue;
    seen.add(text);
    const source = { name: file.name, blob: new Blob([text]) };
    const inspection = await inspect(source, {
      remembered: () => Promise.resolve(null),
      stations: settings.stations
    });
    const layout = layoutFrom(inspection, demoSource.answers(file.name, inspection));
    if ('unanswered' in layout)
      throw new Error(`${file.name}: open questions ${layout.unanswered.join(', ')}`);
    const sha256 = String(index).padStart(64, '0');
    await readRecords(source, layout, {
      onBatch: (batch) => ledger.append({ id: file.name, name: file.name, sha256 }, batch)
    });
  }
  ledger.recompute(settings, [], []);
  return createContext(ledger, settings);
}
