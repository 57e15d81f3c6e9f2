/** The trade's words, as they are used in the pane, the sheets and the help. */

export const GLOSSARY: readonly (readonly [word: string, meaning: string])[] = [
  ['bitting', 'The cuts of one key, written as a code such as 274153.'],
  ['blank', 'The uncut key. Its profile decides which keyways it enters.'],
  ['bottom pin', 'The lowest pin of a chamber, which rests on the key.'],
  ['bow, tip', 'The end of the key that is held, and the end that goes in first.'],
  ['build-up pin', 'In an interchangeable core, the pin between the two shear lines.'],
  ['chamber', 'One pin hole of a cylinder, with the spring and pins in it.'],
  ['change key', 'The key of one door or a few, lowest in the system. Also day key or individual key.'],
  ['control key', 'The key that pulls an interchangeable core out. It must not operate it.'],
  ['cross-keying', 'A cylinder that keys from outside its own line operate too.'],
  ['depth', 'One of the few heights to which a spec cuts; its symbol stands in the code.'],
  ['flat', 'The straight bottom of a cut, as wide as the tip of the cutter.'],
  ['grand master key (GMK)', 'The key over several masters.'],
  ['holder', 'The person who has a key in hand.'],
  ['incidental bitting', 'A bitting that nobody was given and that a cylinder takes all the same.'],
  ['interchange', 'A key operates a cylinder that it should not.'],
  [
    'key bitting array',
    'For each chamber the cuts that change keys may have, with the top master key above them.',
  ],
  [
    'keyed alike, keyed different',
    'Cylinders that one key operates; cylinders that each have a key of their own.',
  ],
  ['keyset symbol', 'The name of a key: AA1 is change key 1 under master AA under grand master A.'],
  ['keyway', 'The shape of the opening that the blank has to enter.'],
  ['lock-out', 'A key does not operate a cylinder that it should.'],
  ['MACS', 'Maximum adjacent cut specification: the most steps between neighbouring cuts.'],
  ['master key (MK)', 'The key over a group of change keys.'],
  [
    'master pin',
    'A pin between bottom and top pin that gives the chamber a second height at which it shears.',
  ],
  ['near miss', 'A key fails at one chamber only, and by little.'],
  ['progression', 'The orderly making of bittings; in one step or two, by how thin a master pin may get.'],
  ['root depth', 'From the bottom of the blade to the bottom of the cut; what a caliper reads.'],
  [
    'shear line',
    'The gap between plug and shell. The key turns when a gap between pins lies there in every chamber.',
  ],
  ['shoulder', 'The stop on the bow’s side that cuts may be measured from; other keys stop at the tip.'],
  [
    'specification (spec)',
    'The dimensions that turn a code into metal: stop, first cut, spacing, root depths, shape of the cut.',
  ],
  ['step', 'One depth to the next, counted from the shallowest cut, whatever the symbols are.'],
  [
    'top master key (TMK)',
    'The key at the top of a system; every change lies a whole number of steps from it.',
  ],
  ['usable changes', 'The theoretical changes less those that the rules reject.'],
];
