import { useEffect, useRef, type ReactElement, type ReactNode } from 'react';
import { useBench, useBenchStore } from '../store/benchStore';

/** The leaf of paper that lies beside the drawing: a title, one sentence on what to do here, and only what is needed for it. */
export function Sheet({
  title,
  lead,
  children,
}: {
  title: string;
  lead: ReactNode;
  children: ReactNode;
}): ReactElement {
  const store = useBenchStore();
  const place = useBench((s) => s.place);
  const body = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (body.current) body.current.scrollTop = 0;
  }, [place]);
  return (
    <section className="sheet" aria-label={title} id="sheet">
      <div className="sheet-body" ref={body}>
        <header className="sheet-head">
          <h2>{title}</h2>
          <button
            type="button"
            className="plain fold-away"
            onClick={() => store.getState().set({ sheetOpen: false })}
          >
            Fold away
          </button>
        </header>
        <p className="lead">{lead}</p>
        {children}
      </div>
    </section>
  );
}

/** A part of a sheet with its own small heading. */
export function Part({
  title,
  children,
  id,
}: {
  title: string;
  children: ReactNode;
  id?: string;
}): ReactElement {
  return (
    <section className="part" id={id}>
      <h3>{title}</h3>
      {children}
    </section>
  );
}
