import { useEffect, useRef, useState, type ReactElement, type ReactNode } from 'react';

/** What is far down a sheet is fetched when it comes into view, or when its button is pressed. */
export function WhenSeen({
  title,
  ask,
  at,
  wanted = false,
  children,
}: {
  title: string;
  /** What the button says: `Show the seams`. */
  ask: string;
  /** Its place in the page, for what leads there. */
  at?: string;
  /** Something leads here: do not wait. */
  wanted?: boolean;
  children: ReactNode;
}): ReactElement {
  const place = useRef<HTMLElement>(null);
  const [seen, setSeen] = useState(() => typeof IntersectionObserver === 'undefined');
  useEffect(() => {
    if (seen || !place.current) return undefined;
    const watch = new IntersectionObserver((entries) => {
      if (entries.some((e) => e.isIntersecting)) setSeen(true);
    });
    watch.observe(place.current);
    return () => watch.disconnect();
  }, [seen]);
  if (seen || wanted) return <>{children}</>;
  return (
    <section className="part" ref={place} id={at}>
      <h3>{title}</h3>
      <div className="actions">
        <button type="button" onClick={() => setSeen(true)}>
          {ask}
        </button>
      </div>
    </section>
  );
}
