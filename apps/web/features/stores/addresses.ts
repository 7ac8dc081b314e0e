/** Where the sheet of a lot is. */
export const lotHref = (id: string): string => `/stores/lots/${encodeURIComponent(id)}`;

/** Where the sheet of a part is. */
export const partHref = (id: string): string => `/stores/parts/${encodeURIComponent(id)}`;
