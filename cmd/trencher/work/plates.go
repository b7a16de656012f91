package work

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
// and why: dishes that do not suit them, or not enough of those that do.
func (s *sharing) tellShort() {
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
		s.plan.Short = append(s.plan.Short, Bound{What: s.guestLabel(g), Says: s.shortReason(g, guest, people, short)})
	}
}

func (s *sharing) shortReason(group int, guest planner.Guest, people, short int) string {
	var suiting, not []string
	for d, suits := range guest.Suits {
		if suits {
			suiting = append(suiting, s.dishes[d].Name)
		} else {
			not = append(not, s.dishes[d].Name+" ("+guest.Why[d]+")")
		}
	}
	who := fmt.Sprintf("%d × %s: %d helpings short", people, s.guestLabel(group), short)
	if len(suiting) < s.problem.Sides {
		dishes := "dishes suit"
		if len(suiting) == 1 {
			dishes = "dish suits"
		}
		return fmt.Sprintf("%s; only %d %s them. What does not: %s", who, len(suiting), dishes, strings.Join(not, "; "))
	}
	return who + "; not enough of what suits them"
}
