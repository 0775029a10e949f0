/**
 * What a page of Latchline may do: load its own files, and nothing from anywhere else. Sent as a header by
 * the server and set in the page, so that it also holds where somebody else's server sends the files.
 * The camera needs nothing here: its picture is handed to the page, not loaded from an address.
 */
const directives = {
  "default-src": "'none'",
  "script-src": "'self'",
  "style-src": "'self'",
  "img-src": "'self' blob:",
  "font-src": "'self'",
  "connect-src": "'self'",
  "manifest-src": "'self'",
  "worker-src": "'self'",
  "base-uri": "'none'",
  "form-action": "'none'",
};

const write = (all) =>
  Object.entries(all)
    .map(([name, value]) => `${name} ${value}`)
    .join("; ");

/** For the page itself. */
export const pagePolicy = write(directives);

/** For the header, which alone may say who may frame the page. */
export const headerPolicy = write({ ...directives, "frame-ancestors": "'none'" });
