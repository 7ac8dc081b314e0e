/** What the parts of Relay's node and connection pattern say of themselves. */
export const relayWords = {
  idFieldOptions: { description: 'Id of this thing, unique over all types.' },
  nodeTypeOptions: { description: 'Anything that has an id.' },
  nodeQueryOptions: {
    description: 'One thing by its id; null where this shop has none.',
    args: { id: { description: 'Its id.' } },
  },
  nodesQueryOptions: {
    description: 'Things by their ids, in that order; null where this shop has none.',
    args: { ids: { description: 'Their ids.' } },
  },
  pageInfoTypeOptions: { description: 'Where a page of a list begins and ends.' },
  hasNextPageFieldOptions: { description: 'More come after it.' },
  hasPreviousPageFieldOptions: { description: 'More come before it.' },
  startCursorFieldOptions: { description: 'Cursor of its first entry.' },
  endCursorFieldOptions: { description: 'Cursor of its last entry.' },
  pageInfoFieldOptions: { description: 'Where this page begins and ends.' },
  edgesFieldOptions: { description: 'The entries of this page.' },
  cursorFieldOptions: { description: 'Its place in the list.' },
  nodeFieldOptions: { description: 'The thing itself.' },
  firstArgOptions: { description: 'How many from the start, at most 200.' },
  lastArgOptions: { description: 'How many from the end, at most 200.' },
  afterArgOptions: { description: 'Only what comes after this cursor.' },
  beforeArgOptions: { description: 'Only what comes before this cursor.' },
  defaultConnectionTypeOptions: { description: 'One page of a list.' },
  defaultEdgeTypeOptions: { description: 'One entry of a page.' },
} as const;
