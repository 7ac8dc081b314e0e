import './open-line-types.ts';
import './open-line-mutations.ts';
import './hand-over-schema.ts';
import './tool-schema.ts';
import './torque-types.ts';
import './torque-mutations.ts';
import './leak-check-schema.ts';
import './checklist-schema.ts';
