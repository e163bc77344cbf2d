import { expect, test } from 'vitest';
import { designFromTracings, readTracing } from '../../src/files';

const nameOf = (inside: string, file = 'my-shift.svg'): string => {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">${inside}<rect id="outline" width="90" height="90"/></svg>`;
  const read = readTracing(svg, file);
  if (!read.ok) throw new Error('it should read');
  return designFromTracings([read.value]).name;
};

test('a design is named by its drawing’s title, up to the first comma', () => {
  expect(nameOf('<title>Harbour shift, class copy</title>')).toBe('Harbour shift');
});

test('a design without a title is named after its file', () => {
  expect(nameOf('')).toBe('my-shift');
  expect(nameOf('<title>  </title>')).toBe('my-shift');
});

test('a title inside a group does not name the design', () => {
  expect(nameOf('<g><title>sleeve detail</title></g>')).toBe('my-shift');
});
