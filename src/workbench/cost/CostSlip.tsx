import type { ReactElement } from 'react';
import { useBench } from '../store/benchStore';
import type { ClothReading } from './costReading';
import { sayCloth } from './costWords';

const isSettled = ({ change, care }: ClothReading): boolean => change !== null && care !== 'quick';

/** At the near edge of the table: what each cloth comes to that the line in hand touches, and the difference it makes. */
export function CostSlip(): ReactElement | null {
  const cloths = useBench((s) => s.cost?.cloths);
  const colours = useBench((s) => s.doc.colours);
  const units = useBench((s) => s.doc.units);
  if (!cloths || cloths.length === 0) return null;
  const rows = cloths.flatMap((reading) => {
    const colour = colours.find(({ id }) => id === reading.colour);
    return colour ? [{ colour, reading, said: sayCloth(reading.change, reading.care, units) }] : [];
  });
  const settled = cloths.every(isSettled);
  const spoken = rows.map(({ colour, said }) => `${colour.name} ${said.buy}, ${said.difference}`).join('; ');
  return (
    <section className="cost-slip" aria-label="Cloth to buy with the line as it lies">
      <ul aria-hidden="true">
        {rows.map(({ colour, reading, said }) => (
          <li key={colour.id} className={reading.care === 'quick' ? 'quick' : undefined}>
            <svg className="cost-swatch" viewBox="0 0 14 14" aria-hidden="true">
              <rect width="14" height="14" rx="2" fill={colour.fill} />
            </svg>
            <span className="cost-name">{colour.name}</span>
            <strong>{said.buy}</strong>
            <span className={`cost-difference ${said.tone}`}>{said.difference}</span>
            {said.cost && <span className="cost-money">{said.cost}</span>}
          </li>
        ))}
      </ul>
      <span className="cost-care" aria-hidden="true">
        {settled ? 'better plan' : 'quick plan'}
      </span>
      <p className="unseen" role="status">
        {settled ? spoken : ''}
      </p>
    </section>
  );
}
