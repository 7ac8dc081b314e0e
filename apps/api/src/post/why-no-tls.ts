/** What Node says of a certificate (OpenSSL's X509_V_ERR_…, and its own of the name), and what it means for the desk. */
const meanings: readonly (readonly [RegExp, (host: string) => string])[] = [
  [
    /certificate has expired|certificate is not yet valid/i,
    (host) => `the certificate of ${host} does not hold today`,
  ],
  [
    /Hostname\/IP does not match/i,
    (host) => `the certificate that answered is not for ${host}, but for another name`,
  ],
  [
    /self[- ]signed certificate|unable to (get|verify)|invalid CA|certificate (chain|signature)/i,
    (host) =>
      `nobody that this machine trusts vouches for the certificate of ${host}; an authority of your own is named by SMTP_CA`,
  ],
];

/**
 * Why a connection was given up for the server's certificate, in a sentence with the words that it came from.
 *
 * @returns null where that was not why
 */
export function whyNoTls(message: string, host: string): string | null {
  const [, meaning] = meanings.find(([words]) => words.test(message)) ?? [];
  return meaning ? `Not sent: ${meaning(host)}. Nothing was handed over (${message}).` : null;
}
