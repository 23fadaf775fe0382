package main

// veterinarianTopic says when this program is not enough, in our own words. The
// facts: weight loss of 0.5 to 2 % a week and rechecks every two weeks from Small
// Animal Clinical Nutrition, 5th ed., p.522-540; ten per cent a point of condition
// from the Missouri VMA 2023 proceedings; the rest is common practice, recalled.
const veterinarianTopic = `Plans are for healthy animals. Ask a veterinarian

before you begin
  for puppies and kittens, in pregnancy and nursing: the margins are narrow
  with disease of kidneys, liver, heart or pancreas, diabetes, bladder stones,
    epilepsy, an overactive thyroid, cancer, or in a trial for food allergy:
    these need a formulation of their own
  with a breed that stores copper, forms urate stones or does not stand fat
  at condition 8 or 9, for a target weight; at condition 3 or less, for the
    cause

at once
  when a cat has eaten nothing for a day, or an overweight cat less than half
    for two days: its liver is at risk
  with repeated vomiting or diarrhoea, blood, collapse, yellow gums, or when it
    does not drink
  when an animal on insulin refuses a meal; never change its food on your own

soon
  when weight falls without being meant to: more than 5 % in a month or 10 % in
    all (recalled)
  when it loses more than 2 % a week on a diet, or nothing in two weeks

Losing weight: 0.5 to 2 % of the weight a week; weigh every two weeks for the
first two months, later every two to three months. Never in growth, pregnancy,
nursing or illness. Adults at rest in weight: weigh monthly. Growing animals:
every one to two weeks, and keep them lean. Change to a new food over about
seven days (recalled).
`

// conditionTopic describes the nine points of body condition in our own words.
const conditionTopic = `Body condition, from 1 to 9: look from above and from the side, then feel the
ribs.

  1 to 3   thin: ribs, spine and hips show or are felt at once, no fat over
           them, the waist is deep. Have the cause looked for; no weight loss
           is planned.
  4        lean: ribs are felt easily, a clear waist. Right for growing dogs.
  5        ideal: ribs are felt under a thin cover, a waist is seen from above.
  6 to 7   overweight: ribs are felt only with pressure, the waist is hard to
           see, the belly hangs a little. Each point is about 10 % over the
           ideal weight.
  8 to 9   very overweight: ribs are hardly felt, no waist, fat over back and
           tail root. A veterinarian sets the target weight; estimates fail
           here.

The ideal weight of condition 6 to 9 is estimated as weight / (1 + 0.10 for
each point over five), the least drastic of the published readings;
ideal_weight in household.toml overrides it.
`
