// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// node page.mjs MODULES BROWSER FOLDER PAGE...: opens each page from its file in a browser without a screen, asks
// axe-core what of WCAG 2.1 A and AA it breaks, looks that nothing is fetched and nothing is wider than a phone, and
// prints it on A4 and Letter. Pictures and prints go into FOLDER.
import { createRequire } from 'node:module';
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const [modules, browser_path, folder, ...pages] = process.argv.slice(2);
const require = createRequire(path.resolve(modules, 'package.json'));
const puppeteer = require('puppeteer-core');
const axe = fs.readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
let faults = 0;

function expect(holds, text) {
  console.log(`${holds ? 'ok' : 'FAULT'}: ${text}`);
  if (!holds) ++faults;
}

async function broken(page) {
  await page.evaluate(axe);
  const { violations, passes } = await page.evaluate(() => window.axe.run(document, {
    runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'best-practice'],
  }));
  const told = violations.map((v) => `${v.id} (${v.nodes.length}): ${v.help}, as in ${v.nodes[0].html.slice(0, 160)}`);
  return { told, rules: passes.length };
}

async function look(browser, file) {
  const name = path.basename(file, '.html');
  const page = await browser.newPage();
  const fetched = [];
  page.on('request', (request) => {
    if (!request.url().startsWith('file:') || request.url() !== pathToFileURL(path.resolve(file)).href)
      fetched.push(request.url());
  });
  await page.setViewport({ width: 1280, height: 800 });
  await page.goto(pathToFileURL(path.resolve(file)).href);
  const { told, rules } = await broken(page);
  expect(rules > 10, `${name}: ${rules} rules of axe-core had something to look at`);
  expect(told.length === 0, `${name}: nothing broken${told.map((t) => `\n  ${t}`).join('')}`);
  await page.screenshot({ path: path.join(folder, `${name}-desk.png`) });
  for (const [format, file_name] of [['A4', 'a4'], ['Letter', 'letter']]) {
    const pdf = await page.pdf({ format, preferCSSPageSize: false, printBackground: true,
                                 path: path.join(folder, `${name}-${file_name}.pdf`) });
    expect(pdf.length > 10000, `${name}: printed on ${format}, ${pdf.length} bytes`);
  }
  await page.setViewport({ width: 390, height: 844, isMobile: true, hasTouch: true });
  await page.reload();
  const wide = await page.evaluate(() => document.documentElement.scrollWidth);
  expect(wide <= 390, `${name}: ${wide} px wide on a phone of 390`);
  await page.screenshot({ path: path.join(folder, `${name}-phone.png`) });
  expect(fetched.length === 0, `${name}: fetches nothing ${fetched.join(' ')}`);
  await page.close();
}

const browser = await puppeteer.launch({
  executablePath: browser_path, args: ['--no-sandbox', '--disable-dev-shm-usage'],
});
try {
  for (const file of pages) await look(browser, file);
  // The check must be able to find fault.
  const page = await browser.newPage();
  await page.setContent('<html><body><img src="data:,"><p style="color:#ccc">pale</p></body></html>');
  const { told } = await broken(page);
  expect(told.length >= 3, `a page with faults has ${told.length}`);
} finally {
  await browser.close();
}
process.exit(faults === 0 ? 0 : 1);
