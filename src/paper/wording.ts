/** What paper says in whole sentences, in one place. Short, where it matters. */

export const PRINT_CHECK = [
  'Print at 100 % (“actual size”), never “fit to page”.',
  'Measure both squares on this sheet before you print or cut the rest. If they are right, the pieces are.',
  'Too small or too large? Set scaling to 100 %, turn off “fit” and “shrink”, and print this sheet again. ' +
    '49 mm in place of 50 mm makes a 60 cm length 12 mm too short.',
] as const;

export const JOINING = [
  'Sheets are named by row and column: A1 is the upper left one. Only sheets with something on them are printed.',
  'Neighbours show the same 1 cm strip. Cut one of the two along the dotted line, lay it on the other so that crosses, ' +
    'shapes and numbers meet, and tape it.',
  'Every join has its own shape and number. Sheets without a dotted line need no joining.',
] as const;

/** Short cautions of the first sheet. The hazards are common knowledge of the craft; rules differ by country, so local ones are deferred to. */
export const SHEET_CAUTIONS = [
  'Sew a toile in cheap cloth first: paper cannot show the fit.',
  'Wash and press all cloth before cutting. Dark beside light may bleed: test a scrap of both together.',
  'Cut away from your body and close the guard of a rotary cutter after every cut. Keep blades and pins away from children.',
] as const;

/** Sections of the handout's cautions page. */
export const CAUTIONS: readonly (readonly [title: string, sentences: readonly string[]])[] = [
  [
    'Before you cut',
    [
      'Sew a toile in cheap cloth first, and correct the pattern, not the garment.',
      'Wash, dry and press every cloth as the garment will be washed. Strong and dark colours may bleed into light ones: ' +
        'wash a scrap of both together and look.',
      'Measure the 5 cm square on the printed pieces. If it is not 5 cm, nothing else fits.',
      'Right side of paper and cloth both up unless the piece says otherwise; otherwise colours change sides on the body.',
    ],
  ],
  [
    'Cutting and pinning',
    [
      'Rotary cutter: shut the guard after each cut, cut away from the body, on a mat and along a ruler, with shoes on. No pins on ' +
        'the mat. Wrap old blades before throwing them away.',
      'Pass scissors handles first. Pins never go in the mouth; take each out before the needle reaches it.',
      'Stop the machine and take your foot off the pedal before you thread it or change the needle.',
    ],
  ],
  [
    'Pressing',
    [
      'Rest the iron on its heel, handle it with dry hands and unplug it after use.',
      'Test the heat on a scrap of each cloth: polyester ribbon and synthetic cloth melt at heats that linen needs.',
    ],
  ],
  [
    'Children and nightwear',
    [
      'Cords, ties and loose ribbon ends at hood, neck, waist or hem can catch and injure a child. Leave them off children’s clothes ' +
        'or sew them down along their length, and follow the rules of your country.',
      'Nightwear burns: trims and loose cloth add to it. Many countries have rules for children’s nightwear.',
    ],
  ],
  [
    'Local rules',
    [
      'Rules for clothing, for classrooms and workshops, and for things you sell differ from country to country. Where they say more than this ' +
        'page, or something else, they count.',
    ],
  ],
];
