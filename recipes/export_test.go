package recipes

// ParseDiet reads a diet as a host would say it: "vegetarian", "vegan no
// gluten", "allergic to nuts and sesame", "milk-free", "no courgettes",
// "pregnant", "" for a guest who eats anything. Whatever cannot be placed is an
// error that names it, and so is what it would take a guess to plan for.
func ParseDiet(text string) (Diet, error) {
	said, err := readDiet(spokenWords(text))
	return said.diet, err
}
