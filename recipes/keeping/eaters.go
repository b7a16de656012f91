package keeping

// NotForVulnerable says why a dish of these foods is nothing for pregnant people,
// small children, the old and those of low immunity, and what they may have
// instead; "" where it may be eaten by them within its times. Sprouted seeds only
// when cooked until they steam.
func NotForVulnerable(foods []string) string {
	for _, name := range foods {
		f, err := LookupFood(name)
		if err != nil || f.notVulnerable == "" && f.refer == "" {
			continue
		}
		if f.rawEgg {
			return "has raw egg; for them bought mayonnaise or an egg cooked through"
		}
		return "has " + f.Name + "; for them a portion without it"
	}
	return ""
}
