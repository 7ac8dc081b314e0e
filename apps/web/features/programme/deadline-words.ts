import type { DeadlineKind, DeadlineState } from '../../graphql/generated/graphql.ts';

export const deadlineKinds: Record<DeadlineKind, string> = {
  major_form: 'form of a major repair or alteration, 48 h',
  defect_report: 'report of a serious defect, 96 h',
  tool: 'calibration of a tool',
  certificate: 'certificate of a person',
  data: 'revision of maintenance data',
};

export const deadlineStates: Record<DeadlineState, string> = {
  late: 'late',
  soon: 'soon',
  open: 'not yet',
  done: 'done',
};
