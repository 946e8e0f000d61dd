/** Cases kept with their topic but not answered yet, by id prefix, each with its reason. */
export const LATER: Readonly<Record<string, string>> = {};
