// Package strict reads YAML written by hand into values. Every mistake in a
// file is collected and named with its file, line and column, what is wrong,
// and what is accepted; a loader reads straight through and asks Err once.
//
// The files are plain: one document, no anchors, aliases, tags or merge keys,
// no key twice, no key that is not known.
package strict
