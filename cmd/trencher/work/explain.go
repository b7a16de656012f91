package work

import "context"

func (s *sharing) tellBounds(ctx context.Context) error { return nil }
