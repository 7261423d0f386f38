/** The scheme under which the page is served; registered as privileged before the app is ready. */
export const appScheme = 'app';
/** The one host of that scheme. */
const appHost = 'footrail';
/** The page's own address. */
export const pageAddress = `${appScheme}://${appHost}/index.html`;

/**
 * True for an address of the page's own origin. Compared part by part: `URL.origin` is "null" for schemes that the URL
 * standard does not know, and a search inside the text would let `https://evil/app://footrail/` through.
 */
export const isAppAddress = (address: string): boolean => {
  if (!URL.canParse(address)) return false;
  const { protocol, host, username, password } = new URL(address);
  return protocol === `${appScheme}:` && host === appHost && username === '' && password === '';
};

/** True for the address of a blob that the page made itself. */
export const isAppBlob = (address: string): boolean =>
  address.startsWith('blob:') && isAppAddress(address.slice('blob:'.length));
