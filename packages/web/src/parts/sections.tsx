import type { ComponentType } from 'preact';
import { hashOf, type PlaceName, route } from '../route.ts';
import { job } from '../state/job.ts';

export interface Section {
  readonly name: string;
  readonly word: string;
  readonly Part: ComponentType;
}

interface Given {
  readonly place: PlaceName;
  readonly label: string;
  readonly sections: readonly [Section, ...Section[]];
}

/** The section of a place that the address names, the first where it names none. */
export const sectionAt = (sections: Given['sections']): Section =>
  sections.find(({ name }) => name === route.value.rest[0]) ?? sections[0];

/** The ways to the sections of one place. */
export function SectionLinks({ place, label, sections }: Given) {
  const here = sectionAt(sections);
  return (
    <nav aria-label={label}>
      <ul class="sections">
        {sections.map(({ name, word }) => (
          <li key={name}>
            <a
              class="button"
              href={hashOf(job.value ?? '', place, name)}
              aria-current={name === here.name ? 'true' : undefined}
            >
              {word}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}
