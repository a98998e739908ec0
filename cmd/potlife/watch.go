package main

import (
	"github.com/spf13/cobra"

	"potlife/schedule/session"
)

func watch(cmd *cobra.Command, s *session.Session, o *checkOptions) error { return nil }
