package render_test

import (
	"fmt"
	"os"

	"trencher/cmd/trencher/render"
	"trencher/harvest/journal"
)

// An answer is laid out as text for people or as JSON for scripts.
func ExampleBegunJSON() {
	begun := journal.Begun{Dir: "mine", Files: []string{"kitchen.yaml", "plantings.yaml"}}
	if err := render.BegunJSON(os.Stdout, begun); err != nil {
		fmt.Println(err)
	}
	// Output:
	// {
	//   "dir": "mine",
	//   "files": [
	//     "kitchen.yaml",
	//     "plantings.yaml"
	//   ]
	// }
}
