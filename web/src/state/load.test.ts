import { signal } from "@preact/signals";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { load } from "./load";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

function asked_of(rests: boolean) {
  const target = signal<number | null>(null);
  const typed = signal(0);
  const asked: number[] = [];
  const answers: ((value: number) => void)[] = [];
  const loading = load(
    target,
    () => {
      const figure = typed.value;
      return () => {
        asked.push(figure);
        return new Promise<number>((resolve) => answers.push(resolve));
      };
    },
    { rests },
  );
  return { target, typed, asked, answers, loading };
}

test("figure after figure typed is one question at the end", async () => {
  const { target, typed, asked, answers, loading } = asked_of(true);
  expect(asked).toEqual([0]);
  for (const figure of [1, 2, 3]) {
    typed.value = figure;
    await vi.advanceTimersByTimeAsync(100);
  }
  expect(asked).toEqual([0]);
  await vi.advanceTimersByTimeAsync(500);
  expect(asked).toEqual([0, 3]);
  answers[0]?.(10); // overtaken: it does not count
  answers[1]?.(13);
  await vi.advanceTimersByTimeAsync(0);
  expect(target.value).toBe(13);
  typed.value = 4; // nothing is open: asked at once
  expect(asked).toEqual([0, 3, 4]);
  loading.stop();
});

test("what does not rest is asked at once", () => {
  const { typed, asked, loading } = asked_of(false);
  typed.value = 1;
  typed.value = 2;
  expect(asked).toEqual([0, 1, 2]);
  loading.stop();
});
