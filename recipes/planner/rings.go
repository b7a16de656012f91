package planner

// ring finds pairings (lot, demand) that lead round, each sharing a lot or a
// demand with the next by turns, or nil.
func (n *network) ring() [][2]int {
	w := &ringWalk{network: n, from: make([]int, len(n.spare)+len(n.wanted))}
	w.seen = make([]bool, len(w.from))
	for node := range w.from {
		if !w.seen[node] {
			if ring := w.through(node, -1); ring != nil {
				return ring
			}
		}
	}
	return nil
}

// ringWalk goes along what lots give demands; its nodes are the lots, then the
// demands.
type ringWalk struct {
	*network
	from []int // the node before each
	seen []bool
}

// through is the first ring met beyond a node that was come to from its parent.
func (w *ringWalk) through(node, parent int) [][2]int {
	w.seen[node], w.from[node] = true, parent
	for other := range w.from {
		if other == parent || !w.joined(node, other) {
			continue
		}
		if w.seen[other] {
			return w.back(node, other)
		}
		if ring := w.through(other, node); ring != nil {
			return ring
		}
	}
	return nil
}

// pair is a lot and a demand, whichever of two nodes is which.
func (w *ringWalk) pair(a, b int) [2]int { return [2]int{min(a, b), max(a, b) - len(w.spare)} }

// joined tells a lot and a demand that it gives to.
func (w *ringWalk) joined(a, b int) bool {
	if lots := len(w.spare); (a < lots) == (b < lots) {
		return false
	}
	p := w.pair(a, b)
	return w.carried[p[0]][p[1]].Sign() != 0
}

// back is the ring that a node closes with one before it.
func (w *ringWalk) back(node, start int) [][2]int {
	ring := [][2]int{w.pair(node, start)}
	for at := node; at != start; at = w.from[at] {
		ring = append(ring, w.pair(at, w.from[at]))
	}
	return ring
}
