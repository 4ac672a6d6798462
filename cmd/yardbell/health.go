package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"time"

	"github.com/spf13/cobra"
)

// healthCommand asks a running service whether it is well, for supervisors of
// containers that have no other program inside.
func healthCommand(e env) *cobra.Command {
	var at string
	var ready bool
	c := &cobra.Command{
		Use:     "health",
		Short:   "Ask a running service whether it is well",
		Long:    "Asks /healthz of a service that was started with --watch or --listen, or /readyz of one started with --watch. The exit status is 0 where it is well, 1 where it is not or does not answer.",
		Example: "  yardbell health --at 127.0.0.1:8089 --ready",
		Args:    noArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			if _, _, err := net.SplitHostPort(at); err != nil {
				return usage("--at takes an address, e.g. 127.0.0.1:8088, not %q", at)
			}
			path := "/healthz"
			if ready {
				path = "/readyz"
			}
			said, err := askHealth(c.Context(), at+path)
			if err == nil {
				_, err = fmt.Fprintln(e.out, said)
			}
			return err
		},
	}
	c.Flags().StringVar(&at, "at", "127.0.0.1:8088", "address that serve listens on")
	c.Flags().BoolVar(&ready, "ready", false, "ask whether it does its work, not only whether it is there: --at is then the address of --watch")
	return c
}

// healthTimeout is less than supervisors wait.
const healthTimeout = 4 * time.Second

func askHealth(ctx context.Context, what string) (string, error) {
	at, _, _ := strings.Cut(what, "/")
	ctx, cancel := context.WithTimeout(ctx, healthTimeout)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+what, nil)
	if err != nil {
		return "", err
	}
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		return "", fmt.Errorf("no answer from %s", at)
	}
	defer func() { _ = resp.Body.Close() }()
	body, err := io.ReadAll(io.LimitReader(resp.Body, 512))
	if err != nil {
		return "", fmt.Errorf("the answer of %s broke off", at)
	}
	said := strings.TrimSpace(string(body))
	if resp.StatusCode != http.StatusOK {
		return "", errors.New(said)
	}
	return said, nil
}
