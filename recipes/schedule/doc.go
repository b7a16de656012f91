// Package schedule gives the steps of a meal their times.
//
// A [Step] says what it keeps busy (hands, a ring of the stove, the steamer, a
// tray), how long it takes, which steps must have ended before it, and which it
// follows at once or runs beside. [Solve] places them so that all is ready at
// the serving time: no limit is overrun if any order keeps it, then hot food
// waits least, then warm food, then the whole takes least time. It proves the
// answer, or says how much better another could be.
//
// The package knows steps and what they use. It knows no dish file, no crop and
// no rule of food safety: limits are minutes given by the caller, and the names
// in a step are labels that it hands on.
package schedule
