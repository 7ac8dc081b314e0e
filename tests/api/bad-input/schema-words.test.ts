import { schema } from '@fairlead/api/schema';
import { isEnumType, isInputObjectType, isInterfaceType, isObjectType, isUnionType } from 'graphql';
import { expect, it } from 'vitest';

it('every type, field, argument and value of the API says what it is', () => {
  const silent: string[] = [];
  const check = (name: string, description: string | null | undefined) => {
    if (!description?.trim()) silent.push(name);
  };
  for (const type of Object.values(schema.getTypeMap())) {
    if (
      type.name.startsWith('__') ||
      ['ID', 'String', 'Int', 'Float', 'Boolean'].includes(type.name)
    )
      continue;
    // A union of a field's outcomes is described by that field.
    if (!isUnionType(type)) check(type.name, type.description);
    if (isObjectType(type) || isInterfaceType(type))
      for (const field of Object.values(type.getFields())) {
        check(`${type.name}.${field.name}`, field.description);
        for (const arg of field.args)
          check(`${type.name}.${field.name}(${arg.name})`, arg.description);
      }
    if (isInputObjectType(type))
      for (const field of Object.values(type.getFields()))
        check(`${type.name}.${field.name}`, field.description);
    if (isEnumType(type))
      for (const value of type.getValues()) check(`${type.name}.${value.name}`, value.description);
  }
  expect(silent).toEqual([]);
});
