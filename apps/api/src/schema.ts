import { lexicographicSortSchema } from 'graphql';
import './scalars.ts';
import './people/schema.ts';
import './people/settings-schema.ts';
import './fleet/schema.ts';
import './catalogue/schema.ts';
import './quoting/schema.ts';
import './work/schema.ts';
import './stores/schema.ts';
import './hangar/schema.ts';
import './books/schema.ts';
import './owner/schema.ts';
import './records/schema.ts';
import './hindsight/schema.ts';
import { builder } from './builder.ts';

export const schema = lexicographicSortSchema(builder.toSchema());
