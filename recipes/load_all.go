package recipes

import (
	"fmt"

	"trencher/units/parallel"
	"trencher/units/strict"
)

// DishFile is a dish file as it stands on the disk.
type DishFile struct {
	File string
	Data []byte
}

// LoadDishes loads the dishes of a plot, in their order. A file that does not
// load, or whose dish is called as an earlier one, is left out and its error is
// among those returned.
func LoadDishes(files []DishFile, kitchen Kitchen) (dishes []Dish, wrong []error) {
	loaded, errs := make([]Dish, len(files)), make([]error, len(files))
	parallel.Each(len(files), func(i int) { loaded[i], errs[i] = LoadDish(files[i].File, files[i].Data, kitchen) })
	named := map[string]string{}
	for i, file := range files {
		if errs[i] != nil {
			wrong = append(wrong, errs[i])
			continue
		}
		dish := loaded[i]
		if first, taken := named[dish.Name]; taken {
			wrong = append(wrong, &strict.Error{File: file.File, Line: 1, Column: 1,
				Problem:  fmt.Sprintf("the name %q stands in %s too", dish.Name, first),
				Accepted: "a name of its own for every dish"})
			continue
		}
		named[dish.Name] = file.File
		dishes = append(dishes, dish)
	}
	return dishes, wrong
}
