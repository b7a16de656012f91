package schedule_test

import (
	"fmt"

	"trencher/recipes/schedule"
)

// The kinds of step, from the first of a meal to the table.
func ExampleKinds() {
	kinds := schedule.Kinds()
	fmt.Println(kinds[0], kinds[5:8])
	// Output:
	// scrub [load steam boil-in]
}
