package talk_test

import (
	"context"
	"fmt"
	"os"
	"strings"

	"trencher/cmd/trencher/talk"
)

// A person is asked where a crop came from, takes the second choice, and takes
// what is offered for the rest.
func Example() {
	t := talk.New(context.Background(), strings.NewReader("2\n\n\n"), os.Stdout)
	beds := []string{"bed-1", "bed-2"}
	bed, when := "", ""
	t.Choose("Lifted from?", beds, "1", func(choice int, _ string) error { bed = beds[max(choice, 0)]; return nil })
	fmt.Println("- 2")
	t.Ask("When?", "now", func(answer string) error { when = answer; return nil })
	fmt.Println("- Enter")
	fmt.Println(bed, when, t.Confirm("Write it down") == nil)
	// Output:
	//   1  bed-1
	//   2  bed-2
	// Lifted from? [1] - 2
	// When? [now] - Enter
	// Write it down (Enter: yes, n: no)? bed-2 now true
}
