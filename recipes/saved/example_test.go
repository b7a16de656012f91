package saved_test

import (
	"fmt"

	"trencher/recipes/saved"
)

func ExampleRead() {
	recipe, err := saved.Read("mash.txt", []byte(`Swede mash
Serves 2
1 swede (700 g)
50 g butter
Boil the swede until soft.
Mash it with the butter.
`), saved.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(recipe)
	// Output:
	// title      Swede mash
	// yield      Serves 2
	// ingredient 1 swede (700 g)
	// ingredient 50 g butter
	// step       Boil the swede until soft.
	// step       Mash it with the butter.
}
