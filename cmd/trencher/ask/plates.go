package ask

import (
	"fmt"
	"slices"
	"strings"

	"trencher/recipes/planner"
)

// tellPlates lists what every guest gets, guests with the same plate together,
// in the order of the groups.
func (s *sharing) tellPlates() {
	for _, plate := range s.solved.Plates {
		told := Plate{Guest: s.guestLabel(plate.Group), Number: 1, Child: s.guests[plate.Group].Child, Short: plate.Short}
		for _, dish := range plate.Dishes {
			told.Dishes = append(told.Dishes, s.dishes[dish].Name)
		}
		same := slices.IndexFunc(s.plan.Plates, func(p Plate) bool {
			return p.Guest == told.Guest && p.Short == told.Short && slices.Equal(p.Dishes, told.Dishes)
		})
		if same >= 0 {
			s.plan.Plates[same].Number++
			continue
		}
		s.plan.Plates = append(s.plan.Plates, told)
	}
}

// guestLabel names one guest of a group: "adult, no milk".
func (s *sharing) guestLabel(group int) string {
	guests := s.guests[group]
	label := "adult"
	if guests.Child {
		label = "child"
	}
	if !guests.Diet.EatsAnything() {
		label += ", " + guests.Diet.String()
	}
	return label
}

// tellShort names the guests who get fewer helpings than the table has sides,
// and the smallest change that would mend it: another dish that suits them, or
// more of a crop.
func (s *sharing) tellShort(extras []planner.Extra) {
	for g, guest := range s.problem.Guests {
		short, people := 0, 0
		for _, plate := range s.solved.Plates {
			if plate.Group == g && plate.Short > 0 {
				short += plate.Short
				people++
			}
		}
		if short == 0 {
			continue
		}
		s.plan.Short = append(s.plan.Short, Bound{What: s.guestLabel(g), Says: s.shortReason(g, guest, people, short, extras)})
	}
}

func (s *sharing) shortReason(group int, guest planner.Guest, people, short int, extras []planner.Extra) string {
	var suiting, not []string
	for d, suits := range guest.Suits {
		if suits {
			suiting = append(suiting, s.dishes[d].Name)
		} else {
			not = append(not, s.dishes[d].Name+" ("+guest.Why[d]+")")
		}
	}
	helpings := "helpings"
	if short == 1 {
		helpings = "helping"
	}
	who := fmt.Sprintf("%d × %s: %d %s short", people, s.guestLabel(group), short, helpings)
	if len(suiting) < s.problem.Sides {
		dishes := "dishes suit"
		if len(suiting) == 1 {
			dishes = "dish suits"
		}
		return fmt.Sprintf("%s. Only %d %s; another dish that does would mend it. Not for them: %s", who, len(suiting), dishes, strings.Join(not, "; "))
	}
	if len(extras) > 0 {
		return fmt.Sprintf("%s. Another %s %s of %s would serve one more", who, upToShown(extras[0].Amount), unitName(extras[0].Unit), extras[0].Of)
	}
	return who + ". More of the crop, or another dish that suits, would mend it"
}
