import { type PublicKey, writeKeyChange } from '@fairlead/proof';
import { allow, type Context } from '../../context.ts';
import { Refused } from '../../errors.ts';
import { givenText } from '../../given.ts';
import { holdFor } from '../../hold.ts';
import { keyRow } from '../../record-chain.ts';
import { makeNextKey, shopKeyThere } from '../../shop-key.ts';

export interface ChangeKeyInput {
  /** The old key is gone, or somebody else may have it: it signs no hand-over. */
  lost: boolean;
  reason: string;
  /** The manager's own name, typed: the deliberate act. */
  signature: string;
}

/**
 * A new key takes over. Where the old one is there it signs that it hands over, and the new one that it takes over; where it
 * is lost the new one alone signs, and every archive shows the break with who said so and why. What the old key signed holds.
 */
export async function changeKey(context: Context, input: ChangeKeyInput): Promise<string> {
  const { personId, shopId } = await allow(context, 'manager');
  const { lost, signature } = input;
  const reason = givenText(input.reason, 'reason', { least: 3, most: 500 });
  const there = await shopKeyThere(context.uploadsDir, shopId);
  if (!lost && !there)
    throw new Refused(
      'AGAINST_RULE',
      'The file of the old key is not there, so it cannot sign its hand-over: bring it back from the backup, or say that it is lost.',
      'lost',
    );
  const next = await makeNextKey(context.uploadsDir, shopId);
  const undo: (() => Promise<void>)[] = [];
  try {
    return await context.write(async (tx) => {
      // load
      await holdFor(tx, 'key', 'of the shop');
      const { name } = await tx.person.findUniqueOrThrow({
        where: { id: personId },
        select: { name: true },
      });
      if (there && !lost) await keyRow(tx, there);
      const current = await tx.shopKey.findFirst({
        where: { replaced: null },
        orderBy: [{ madeAt: 'desc' }, { id: 'desc' }],
        select: { id: true, publicKey: true, fingerprint: true },
      });
      // decide
      if (signature.trim() !== name)
        throw new Refused(
          'BAD_INPUT',
          `The signature reads “${signature.slice(0, 80)}”: needed is your own name, ${name}, typed in full.`,
          'signature',
        );
      if (!current)
        throw new Refused(
          'CONFLICT',
          'No key has signed anything yet: there is nothing to replace. The first is made when it is needed.',
        );
      if (!lost && there?.fingerprint !== current.fingerprint)
        throw new Refused(
          'CONFLICT',
          `The key in the file, ${there?.fingerprint ?? 'none'}, is not the one that signs now, ${current.fingerprint}: bring that one back, or say that it is lost.`,
          'lost',
        );
      // save
      const at = context.now();
      const from: PublicKey = { crv: 'Ed25519', kty: 'OKP', x: current.publicKey };
      const line = writeKeyChange(
        { ...{ from, to: next.key.publicKey, at: at.toISOString() }, by: name, reason, lost },
        next.key,
        lost ? null : there,
      );
      const toId = await keyRow(tx, next.key);
      const { id } = await tx.shopKeyChange.create({
        data: { ...{ fromId: current.id, toId, lost, reason, line }, byId: personId, at },
        select: { id: true },
      });
      // The last thing before the transaction ends; put back where that fails.
      undo.push(await next.install());
      return id;
    });
  } catch (error) {
    for (const back of undo) await back();
    throw error;
  } finally {
    await next.clear();
  }
}
