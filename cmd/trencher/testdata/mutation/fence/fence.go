// Package fence is small enough to know every fault that can be put into it.
package fence

// Posts is how many posts carry a fence, one each spacing metres and one at the end.
func Posts(metres, spacing int) int {
	if metres <= 0 || spacing <= 0 {
		return 0
	}
	posts := 1
	for posts*spacing < metres {
		posts++
	}
	posts++
	return posts
}

// Rails is how many rails lie between so many posts, three to a gap.
func Rails(posts int) int {
	if posts < 2 {
		return 0
	}
	return 3 * (posts - 1)
}

// Gate is the first of one gate.
func Gate() string {
	return [...]string{"gate"}[0]
}
