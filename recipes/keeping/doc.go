// Package keeping says how cooked and raw garden crops keep: the published
// food-safety rules as data, general guidance by food, the verdict on a cooked
// batch from its own history, and what the rules ask of a planned meal.
//
// # Asking
//
// [Guide] tells how a food keeps, with no batch in hand. A [Batch] is the
// history of one: when it was cooked, in the fridge, out of it, how warm the
// air was. [Judge] gives the [Verdict] on it at a moment: throw it out, eat it
// now, heat it first, eat it by then, or which fact is missing. [DeadlineOf]
// gives the moment at which the verdict becomes a discard if nothing more
// happens; it asks Judge and knows no rule of its own. [PlanNotes] tells what
// the rules ask of the dishes of a plan; its times of day are Judge's on the
// histories planned, so that a plan and a verdict cannot differ.
//
// Temperatures are degrees Celsius, times are instants: a day on which the
// clocks change is as long as it is. Input that cannot be is a
// [*units.FieldError], by the fields of [Fact.Field].
//
// # Deciding
//
// Three clocks decide a batch: cooling (until it is in the fridge), out (every
// later spell out of the fridge, added up) and life (days in the fridge). The
// limits come from the rules by way of authorities.yaml and foods.yaml; Judge
// only compares. The strictest authority takes the stricter of each limit, so
// that it is never more lenient than any single one.
//
// # Rules
//
// A rule (rules/*.yaml) has
//
//	id            the name scripts know it by
//	topic, state  what it is about: cooling, chilled, out, frozen, thawed,
//	              hot, reheating, dressed, raw
//	jurisdiction  whose rule it is: uk, uk-scotland, us, au-nz, eu, ie, nz,
//	              codex, who, de, fr, at, any
//	audience      home, business or both
//	force         law, code (a model code or an official scheme), advice,
//	              measured, toxicology or practice
//	values        figures with their UCUM unit ("2 h", "63 Cel", "0..3 Cel"),
//	              or words where the source has no figure
//	says          the rule in our own words
//	source        publisher, title, year and section
//	known_by      read (in a stored copy or an excerpt of one), memory,
//	              computed or practice
//	note, use     what in it rests on less than known_by; how it is used here
//
// To add a rule, write its row in rules/; name it in authorities.yaml or
// foods.yaml if a limit rests on it, and in the guidance of a food. The tests
// fail while it lacks a source or while nothing reaches it.
package keeping
