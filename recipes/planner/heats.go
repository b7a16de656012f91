package planner

import (
	"context"
	"maps"
	"slices"
)

// Of hundreds of dishes a few are made. A search among all of them is long in coming by
// a good plan, one among fifty is not: so a plan to begin from is looked for by heats, of
// which the dishes that are made go on to the next. What is best is then proven among
// all.

const (
	mostAtOnce = 100 // dishes among which a search comes by a good plan
	heatSize   = 50
	heatNodes  = 200   // the patience of a heat
	finalNodes = 1_000 // and of the last
)

// goodStart is a good plan among very many dishes, and what it took to find; an empty one
// where they are not many, or most of them are made.
func (p *Problem) goodStart(ctx context.Context, most map[int]int64) Plan {
	if len(most) <= mostAtOnce {
		return Plan{}
	}
	h := &heats{*p, ctx, most, Effort{}}
	left := slices.Sorted(maps.Keys(most))
	for len(left) > mostAtOnce {
		made := h.winners(left)
		if 2*len(made) > len(left) {
			return Plan{Effort: h.work}
		}
		left = made
	}
	plan := h.among(left, finalNodes)
	plan.Effort = h.work
	return plan
}

// heats are searches among some dishes at a time.
type heats struct {
	Problem
	ctx  context.Context
	most map[int]int64
	work Effort
}

// winners are the dishes that are made in the heats they are in.
func (h *heats) winners(dishes []int) []int {
	var made []int
	for heat := range slices.Chunk(dishes, heatSize) {
		for d, n := range h.among(heat, heatNodes).Portions {
			if n > 0 {
				made = append(made, d)
			}
		}
	}
	return made
}

// among is a good plan of the dishes named, proven or not.
func (h *heats) among(dishes []int, nodes int) Plan {
	some := map[int]int64{}
	for _, d := range dishes {
		some[d] = h.most[d]
	}
	h.anyOfEqual, h.NodeLimit = true, nodes
	plan, _ := h.attempts(h.ctx, wanting{most: some}, (*attempt).run)
	h.work.Nodes, h.work.Pivots = h.work.Nodes+plan.Effort.Nodes, h.work.Pivots+plan.Effort.Pivots
	return plan
}
