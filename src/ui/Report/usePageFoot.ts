import { useEffect } from "react";

/**
 * What stands at the foot of every printed page, with the page's number: Chromium prints it in the margin, other
 * browsers leave it out. Set as a sheet of its own, since the content security policy lets no style into the page.
 */
export function usePageFoot(foot: string | undefined): void {
  useEffect(() => {
    if (foot === undefined) return;
    const sheet = new CSSStyleSheet();
    const type = "font-family: sans-serif; font-size: 8pt";
    sheet.replaceSync(
      `@page {
        @bottom-left { content: ${quoted(foot)}; ${type}; width: 85%; text-align: left; }
        @bottom-right { content: counter(page) " of " counter(pages); ${type}; width: 15%; }
      }`,
    );
    document.adoptedStyleSheets.push(sheet);
    return () => {
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((each) => each !== sheet);
    };
  }, [foot]);
}

/** Words as a string of CSS. */
const quoted = (words: string) =>
  `"${words.replace(/[\\"\n]/g, (sign) => `\\${sign.charCodeAt(0).toString(16)} `)}"`;
