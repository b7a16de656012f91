// Package meal makes the plan of a meal: what of a weighed crop becomes which
// dishes, how each is cut and steamed, when, and until when it may be eaten.
//
// [Make] goes through the stages in the only order there is, each a function
// from values to values:
//
//	Solve     who gets what from which lot          -> Solved
//	Scale     each dish's ingredients               -> Scaled
//	LoadUp    cuts, and what goes into the steamer  -> Loaded
//	Schedule  the steps and their times             -> Timetable
//	Keep      until when each dish may be eaten     -> Kept
//
// The result is a [Plan]: data, without a sentence of its own. Whoever shows it
// finds its words. [Check] replays a plan as somebody would who trusts none of
// these stages; what it finds becomes a warning.
package meal
