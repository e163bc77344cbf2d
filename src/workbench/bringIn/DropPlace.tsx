import { useState, type DragEvent, type ReactElement, type ReactNode } from 'react';
import { useFiles } from './FilesContext';

/** The whole screen takes dropped files. */
export function DropPlace({ children }: { children: ReactNode }): ReactElement {
  const files = useFiles();
  const [over, setOver] = useState(false);
  const hasFiles = (e: DragEvent): boolean => e.dataTransfer.types.includes('Files');
  return (
    <div
      className={over ? 'bench dropping' : 'bench'}
      onDragOver={(e) => {
        if (!hasFiles(e)) return;
        e.preventDefault();
        e.dataTransfer.dropEffect = 'copy';
        setOver(true);
      }}
      onDragLeave={(e) => {
        if (!e.currentTarget.contains(e.relatedTarget as Node | null)) setOver(false);
      }}
      onDrop={(e) => {
        if (!hasFiles(e)) return;
        e.preventDefault();
        setOver(false);
        void files.take([...e.dataTransfer.files]);
      }}
    >
      {children}
      {over && <p className="drop-words">Let go: tracings (SVG) and saved designs are opened.</p>}
    </div>
  );
}
