import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useEffect } from 'react';
import { request } from '../../graphql/request.ts';
import { DeskDocument, PutAwayDocument, TakeInDocument } from './hours-document.ts';
import { sendHistory } from './send-history.ts';

const LOOK_EVERY_MS = 500;

/** A refusal's sentence as an error, so that it stands beside what was asked. */
class SaidNo extends Error {
  override readonly name = 'SaidNo';
}

/** The history file on the desk, looked at again and again while the worker is at it, and what can be done with it. */
export function useDesk() {
  const client = useQueryClient();
  const desk = useQuery({
    queryKey: ['history desk'],
    queryFn: () => request(DeskDocument),
    staleTime: 0,
    refetchInterval: ({ state }) =>
      state.data?.hindsight.upload?.state.startsWith('being_') ? LOOK_EVERY_MS : false,
  });
  const upload = desk.data?.hindsight.upload ?? null;

  // What was taken in counts in every figure of this sheet, whoever took it in.
  const taken = upload?.state === 'taken_in' ? upload.id : null;
  useEffect(() => {
    if (taken !== null) void client.invalidateQueries({ queryKey: ['hours'] });
  }, [taken, client]);

  const look = () => client.invalidateQueries({ queryKey: ['history desk'] });
  const send = useMutation({ mutationFn: sendHistory, onSettled: look });
  const takeIn = useMutation({
    mutationFn: async (uploadId: string) => {
      const { result } = await request(TakeInDocument, { uploadId });
      if (result.__typename === 'Refusal') throw new SaidNo(result.message);
    },
    onSettled: look,
  });
  const putAway = useMutation({
    mutationFn: async (uploadId: string) => {
      const { result } = await request(PutAwayDocument, { uploadId });
      if (result.__typename === 'Refusal') throw new SaidNo(result.message);
      return result;
    },
    onSuccess: () => {
      send.reset();
      takeIn.reset();
    },
    onSettled: look,
  });
  return { desk, upload, send, takeIn, putAway };
}
