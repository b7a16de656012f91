//go:build race

package journal_test

// raced tells whether the race detector runs: it empties every sync.Pool at
// random, so that patterns allocate anew what they otherwise keep.
const raced = true
