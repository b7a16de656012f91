package keeping

import (
	"slices"
	"strings"
)

// Authority is whose rules decide. The zero value is none and is taken as
// Strictest.
type Authority string

// The authorities a batch can be judged by.
const (
	Strictest       Authority = "strictest" // of every limit the stricter
	UnitedKingdom   Authority = "uk"
	UnitedStates    Authority = "us"
	AustraliaAndNZ  Authority = "au-nz"
	authorityAccept           = "strictest, uk, us or au-nz"
)

// Authorities lists the single authorities, in the order their rules are
// named.
func Authorities() []Authority {
	return []Authority{UnitedKingdom, UnitedStates, AustraliaAndNZ}
}

// ParseAuthority reads "strictest", "uk", "us" or "au-nz"; an empty text is
// Strictest. It returns a [*units.FieldError] for anything else.
func ParseAuthority(text string) (Authority, error) {
	a := Authority(strings.ToLower(strings.TrimSpace(text)))
	if a == "" {
		return Strictest, nil
	}
	if a == Strictest || slices.Contains(Authorities(), a) {
		return a, nil
	}
	return "", FactAuthority.wrong(text, "no authority known here", authorityAccept)
}

// name writes a single authority for a sentence.
func (a Authority) name() string {
	names := map[Authority]string{UnitedKingdom: "the UK", UnitedStates: "the US", AustraliaAndNZ: "Australia and New Zealand"}
	return names[a]
}
