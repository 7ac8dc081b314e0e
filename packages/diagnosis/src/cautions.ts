/** Shown with every suggestion, on the page and on paper. */
export const cautions: readonly string[] = [
  "Suggested causes are an aid where the maker gives none. The manufacturer's current maintenance manual, its fault finding and the directives in force govern.",
  'This suggests; a person who holds the certificate and rating decides what is wrong and what is done.',
  'Which cause goes with which sign has the source beside it. How likely each is, is the judgement of this program and of this shop’s own closed findings; no publication gives it.',
  'Something that is not on the list can be the cause. If the aircraft is doubtful, it does not fly until somebody entitled has found the cause.',
];
