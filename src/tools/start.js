/** Everything from a bare clone to a page in the browser: install, build, serve. Takes the options of serve.js. */
import { ensureBuilt } from './build.js';
import { ensureInstalled } from './install.js';
import { serve } from './serve.js';

if ((await ensureInstalled()) && (await ensureBuilt())) await serve();
else process.exitCode = 1;
