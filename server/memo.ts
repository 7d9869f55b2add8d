/**
 * Remembers one result per argument object, for as long as that object lives.
 * Sound because everything it is used on is immutable: what changed is a new object.
 */
export function memo<Key extends object, Value extends NonNullable<unknown>>(
  compute: (key: Key) => Value,
): (key: Key) => Value {
  const known = new WeakMap<Key, Value>();
  return key => {
    let value = known.get(key);
    if (value === undefined) {
      value = compute(key);
      known.set(key, value);
    }
    return value;
  };
}

/** The same for a function of two objects; the second is the one that changes less often. */
export function memo2<A extends object, B extends object, Value>(
  compute: (a: A, b: B) => Value,
): (a: A, b: B) => Value {
  const known = memo((_: A) => new WeakMap<B, { value: Value }>());
  return (a, b) => {
    const byB = known(a);
    let entry = byB.get(b);
    if (entry === undefined) {
      entry = { value: compute(a, b) };
      byB.set(b, entry);
    }
    return entry.value;
  };
}
