// Package schedule gives the steps of a meal their times.
//
// A [Step] says what it keeps busy (hands, a ring of the stove, a tier of the
// steamer), how long it takes and which steps must have ended before it; some
// follow another without a gap, as a hot dish is finished straight from the
// steamer. [Backward] places them so that all is ready at the serving time.
//
// The package knows steps and what they use. It knows no dish file, no crop and
// no rule of food safety: the names in a step are labels that it hands on.
package schedule
