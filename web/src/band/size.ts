// How large an element is, as it changes.
import type { RefObject } from "preact";
import { useLayoutEffect, useState } from "preact/hooks";

export interface Size {
  width: number;
  height: number;
}

export function use_size(of: RefObject<HTMLElement>): Size {
  const [size, set_size] = useState<Size>({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const element = of.current;
    if (element === null) return undefined;
    const measure = () => {
      const { clientWidth: width, clientHeight: height } = element;
      set_size((was) => (was.width === width && was.height === height ? was : { width, height }));
    };
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return size;
}
