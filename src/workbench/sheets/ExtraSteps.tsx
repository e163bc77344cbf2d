import { useState, type ReactElement } from 'react';
import type { Garment } from '../../garment';
import { extraTellings, settingIn } from '../../garment/telling';
import { Part } from './Sheet';
import { StepCard, TellingList } from './StepCard';

/** How lining and facings are sewn among themselves; a chosen step opens. */
export default function ExtraSteps({ garment }: { garment: Garment }): ReactElement | null {
  const [chosen, setChosen] = useState<string | null>(null);
  const extras = extraTellings(garment);
  const last = settingIn(garment);
  if (extras.length === 0 && !last) return null;
  return (
    <Part title="Lining and facings">
      <p className="note">Sewn among themselves, before the step of the garment that takes them in.</p>
      <ol className="rows">
        {extras.map(({ mark, garment: own, step, telling }) => (
          <li key={step.key} className={chosen === step.key ? 'chosen' : undefined}>
            <button
              type="button"
              className="row-button"
              aria-pressed={chosen === step.key}
              onClick={() => setChosen(chosen === step.key ? null : step.key)}
            >
              <span className="row-number">{mark}</span>
              <span>{telling.title}</span>
            </button>
            {chosen === step.key && <StepCard garment={own} step={step} told={telling} onMove={null} />}
          </li>
        ))}
      </ol>
      {last && (
        <details className="about-cloth">
          <summary>
            {last.mark} {last.telling.title}
          </summary>
          <TellingList parts={last.telling.parts} />
        </details>
      )}
    </Part>
  );
}
