//go:build !race

package journal_test

const raced = false
