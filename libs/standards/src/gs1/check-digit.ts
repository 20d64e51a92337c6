/** GS1 General Specifications, check digit calculation: weights 3 and 1 alternate from the right; the check digit brings the sum to the next ten. Digits only. */
export function checkDigitOf(digits: string): number {
  const sum = [...digits].reverse().reduce((total, digit, i) => total + Number(digit) * (i % 2 === 0 ? 3 : 1), 0);
  return (10 - (sum % 10)) % 10;
}

/** Whether the last digit is the check digit of those before it. */
export function checkDigitFits(key: string): boolean {
  return /^\d{2,}$/.test(key) && checkDigitOf(key.slice(0, -1)) === Number(key.at(-1));
}
