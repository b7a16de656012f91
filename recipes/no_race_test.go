//go:build !race

package recipes

const raced = false
