/** The same data with every function in it gone and its name left, as a worker can post it. */
export function plain<T>(value: T): T {
  if (typeof value === 'function') return undefined as T;
  if (Array.isArray(value)) return value.map(plain) as T;
  if (value === null || typeof value !== 'object' || Object.getPrototypeOf(value) !== Object.prototype)
    return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, plain(one)])) as T;
}
