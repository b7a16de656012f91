// Package strict reads YAML written by hand into values. Every mistake in a
// file is collected and named with its file, line and column, what is wrong,
// and what is accepted.
//
// A loader calls [Parse], takes [Reader.Root] apart by the keys it knows
// ([Node.Map], [Map.At], [Map.Require]) and reads each value by the accessor of
// its kind ([Node.Quantity], [Node.Date], [Node.Choice] ...). An accessor of a
// value that is missing or wrong notes the mistake and returns nothing, so the
// loader reads straight through and asks [Reader.Err] once, at the end.
// [Node.Fail] notes what the loader itself finds wrong. [Join] puts the mistakes
// of several files together.
//
// The files are plain: one document, no anchors, aliases, tags or merge keys,
// no key twice, no key that is not known. A value that stands in no file is read
// alike by [QuantityField], whose error names its field.
package strict
