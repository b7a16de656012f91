package keeping

import "slices"

// NotForVulnerable says why a dish of these foods is nothing for pregnant people,
// small children, the old and those of low immunity, and what they may have
// instead; "" where it may be eaten by them within its times. Sprouted seeds only
// when cooked until they steam.
func NotForVulnerable(foods []string) string {
	for _, name := range foods {
		f, err := LookupFood(name)
		if err != nil || !f.isNotForVulnerable() {
			continue
		}
		if f.rawEgg {
			return "has raw egg; for them bought mayonnaise or an egg cooked through"
		}
		return "has " + f.Name + "; for them a portion without it"
	}
	return ""
}

func (f Food) isNotForVulnerable() bool { return f.notVulnerable != "" || f.refer != "" }

// NotForVulnerable lists every phrase of a dish that makes it a food which is
// nothing for vulnerable eaters, each once.
func (k Kinds) NotForVulnerable() []string {
	var words []string
	for _, one := range k.spoken {
		if f, err := LookupFood(one.Kind); err == nil && f.isNotForVulnerable() && !slices.Contains(words, one.Words) {
			words = append(words, one.Words)
		}
	}
	return words
}
