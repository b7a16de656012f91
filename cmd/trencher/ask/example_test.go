package ask_test

import (
	"context"
	"fmt"

	"trencher/cmd/trencher/ask"
)

// Words become a question, the plot its values, and the answer is plain data.
func ExampleReady() {
	answer, err := ask.Ready(context.Background(), ask.ReadyQuestion{
		PlotRef: ask.PlotRef{Demo: true, On: "2031-06-21"},
		Felt:    []string{"bed-2=30 mm"},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range answer.List {
		fmt.Println(r.Planting.ID, r.State)
	}
	// Output:
	// bed-2 due
	// bed-3 early
	// tub-1 early
}
