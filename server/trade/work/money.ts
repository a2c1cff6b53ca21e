import Fraction from 'fraction.js';

/**
 * Sums of money, exact: whole numbers of the smallest coin that prices of a currency are written in. Every line is rounded once, half
 * up, and what is printed as a total is the sum of what is printed above it.
 */

/** Decimals of a currency, by ISO 4217; two where none is said. */
export function decimalsOf(currency: string | undefined): number {
  if (currency === undefined) return 2;
  return new Intl.NumberFormat('en', { style: 'currency', currency }).resolvedOptions().maximumFractionDigits ?? 2;
}

/** So many at a price, in coins: a price is a decimal as it is written, an amount may be any number. */
export const coinsFor = (price: number, amount: number, decimals: number): number =>
  rounded(
    decimal(price)
      .mul(decimal(amount))
      .mul(10 ** decimals),
  );

/** A share of a sum of coins, in coins. */
export const coinsOf = (coins: number, percent: number): number =>
  rounded(new Fraction(coins).mul(decimal(percent)).div(100));

/** One of so many equal parts of a sum of coins, in coins. */
export const shareOf = (coins: number, parts: number): number => rounded(new Fraction(coins).div(parts));

/** Coins as the number that is shown. */
export const inMoney = (coins: number, decimals: number): number =>
  Number(new Fraction(coins).div(10 ** decimals).toString(12));

/** What is written as 58.1 is 581/10, not the double beside it. */
const decimal = (value: number): Fraction => new Fraction(String(Number(value.toPrecision(15))));

function rounded(value: Fraction): number {
  const half = value.add(new Fraction(1, 2));
  return Number(half.floor());
}
