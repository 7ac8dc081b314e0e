import { createPrivateKey, createPublicKey, sign, verify } from 'node:crypto';
import { canonical, fingerprintOf, headerOf, signedBy, signingKey } from '@fairlead/proof';
import { pack } from 'tar-stream';
import { describe, expect, it } from 'vitest';

/** RFC 8032 §7.1, tests 1, 2, 3: secret key, public key, message, signature, hexadecimal. */
const rfc8032 = [
  [
    '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60',
    'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
    '',
    'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
  ],
  [
    '4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb',
    '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c',
    '72',
    '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00',
  ],
  [
    'c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7',
    'fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025',
    'af82',
    '6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a',
  ],
] as const;

const jwk = (publicHex: string) => ({
  crv: 'Ed25519' as const,
  kty: 'OKP' as const,
  x: Buffer.from(publicHex, 'hex').toString('base64url'),
});

describe('signatures, against RFC 8032', () => {
  // What is signed here is always text: of the three messages only "" and "r" are UTF-8, so the third goes to node:crypto itself.
  it.each(rfc8032)('secret %s', (secret, publicHex, message, signature) => {
    const key = createPrivateKey({
      format: 'jwk',
      key: { ...jwk(publicHex), d: Buffer.from(secret, 'hex').toString('base64url') },
    });
    expect(createPublicKey(key).export({ format: 'jwk' })).toMatchObject(jwk(publicHex));
    const bytes = Buffer.from(message, 'hex');
    expect(sign(null, bytes, key).toString('hex')).toBe(signature);
    expect(verify(null, bytes, createPublicKey(key), Buffer.from(signature, 'hex'))).toBe(true);
    const text = bytes.toString('utf8');
    if (!Buffer.from(text).equals(bytes)) return;
    const ours = signingKey(key);
    expect(ours.publicKey).toEqual(jwk(publicHex));
    expect(ours.sign(text).toString('hex')).toBe(signature);
    const given = Buffer.from(signature, 'hex').toString('base64url');
    expect(signedBy(ours.publicKey, text, given)).toBe(true);
    expect(signedBy(ours.publicKey, `${text}.`, given)).toBe(false);
  });
});

it('the fingerprint of a key, against RFC 8037 appendix A.3', () => {
  expect(
    fingerprintOf({ crv: 'Ed25519', kty: 'OKP', x: '11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo' }),
  ).toBe('kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k');
});

describe('canonical JSON, against RFC 8785', () => {
  it('§3.2.2: numbers, strings, literals', () => {
    const given = JSON.parse(
      String.raw`{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],"string":"\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/","literals":[null,true,false]}`,
    );
    expect(canonical(given)).toBe(
      String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
    );
  });
  it('§3.2.3: members by UTF-16 code units', () => {
    const given = JSON.parse(
      String.raw`{"\u20ac":"Euro Sign","\r":"Carriage Return","\ufb33":"Hebrew Letter Dalet With Dagesh","1":"One","\ud83d\ude00":"Emoji: Grinning Face","\u0080":"Control","\u00f6":"Latin Small Letter O With Diaeresis"}`,
    );
    expect(Object.values(JSON.parse(canonical(given)) as object)).toHaveLength(7);
    expect([...canonical(given).matchAll(/:"([^"]+)"/g)].map(([, value]) => value)).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });
});

it('headers of an archive are those that tar-stream writes (POSIX ustar)', async () => {
  const written = pack();
  written.entry(
    { name: 'attachments/a.jpg', size: 5, mtime: new Date(1_773_478_800_000) },
    'hello',
  );
  written.finalize();
  const chunks: Buffer[] = [];
  for await (const chunk of written) chunks.push(chunk as Buffer);
  const bytes = Buffer.concat(chunks);
  expect(bytes.subarray(0, 512).toString('latin1')).toBe(
    headerOf('attachments/a.jpg', 5, 1_773_478_800).toString('latin1'),
  );
  expect(bytes.length).toBe(512 + 512 + 1024);
});
