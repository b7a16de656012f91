package planner

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"
)

func TestDbg(t *testing.T) {
	for name, size := range map[string]randomSize{"table": tableSize, "share": shareSize} {
		count := map[string]int{}
		start := time.Now()
		for seed := range 100 {
			p := benchProblem(size, seed)
			p.NodeLimit = 3000
			if false {
				for i := range p.Lots {
					p.Lots[i].First = false
				}
			}
			plan, err := Solve(context.Background(), p)
			var e *NotProvenError
			if errors.As(err, &e) {
				count[e.Level]++
				if seed < 30 {
					fmt.Println(name, seed, err, e.Best.FloatString(2), e.Bound.FloatString(2))
				}
			} else {
				count["ok"]++
				if seed < 20 {
					fmt.Println(name, seed, "ok", plan.Effort)
				}
			}
		}
		fmt.Println(name, count, time.Since(start)/100)
	}
}
