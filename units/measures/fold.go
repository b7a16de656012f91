package measures

import "strings"

// Fold brings a name to the form that names are compared in: small letters,
// single spaces, no accents and no full stop at the end.
func Fold(name string) string {
	name = strings.Join(strings.Fields(strings.ToLower(name)), " ")
	return strings.Trim(accents.Replace(name), " .")
}

var accents = strings.NewReplacer("’", "'", "à", "a", "á", "a", "â", "a", "ä", "a", "ç", "c", "è", "e", "é", "e", "ê", "e", "ë", "e",
	"î", "i", "ï", "i", "í", "i", "ñ", "n", "ô", "o", "ö", "o", "ó", "o", "ù", "u", "û", "u", "ü", "u", "ú", "u")

// lookupKey is the form a name stands under in an index: folded, and no hyphen.
func lookupKey(name string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(Fold(name), "-", " ")), " ")
}

// Singulars lists a folded name and then what it may be the plural of.
func Singulars(name string) []string {
	forms := []string{name}
	for _, ending := range []struct{ plural, singular string }{
		{"ies", "y"}, {"ves", "f"}, {"oes", "o"}, {"shes", "sh"}, {"ches", "ch"}, {"s", ""},
	} {
		if stem, ok := strings.CutSuffix(name, ending.plural); ok && len(stem) > 1 && !strings.HasSuffix(name, "ss") {
			forms = append(forms, stem+ending.singular)
		}
	}
	return forms
}
