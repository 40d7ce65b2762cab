package method_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
)

func TestRenamed(t *testing.T) {
	of := func(input string) error { return &method.Error{Code: method.Missing, Input: input, Detail: "x"} }
	named := func(err error) string {
		var domain *method.Error
		require.ErrorAs(t, err, &domain)
		assert.Equal(t, method.Missing, domain.Code)
		assert.Equal(t, "x", domain.Detail)
		return domain.Input
	}
	pairs := [][2]string{{"mass", "weight"}, {"phases/", "storage/"}, {"phases", "storage"}}
	for from, to := range map[string]string{
		"mass": "weight", "mass_resolution": "mass_resolution", "phases/3/climate": "storage/3/climate", "phases": "storage", "phase": "phase", "": "",
	} {
		given := of(from)
		assert.Equal(t, to, named(method.Renamed(given, pairs...)))
		assert.Equal(t, from, named(given), "the error given stays as it is")
	}
	both := method.Renamed(errors.Join(of("mass"), of("x"), of("phases/0")), pairs...)
	several, is := both.(interface{ Unwrap() []error })
	require.True(t, is)
	var names []string
	for _, one := range several.Unwrap() {
		names = append(names, named(one))
	}
	assert.Equal(t, []string{"weight", "x", "storage/0"}, names)
	plain := errors.New("no input")
	assert.Equal(t, plain, method.Renamed(plain, pairs...))
	assert.NoError(t, method.Renamed(nil, pairs...))
}

func TestBelowAndNamed(t *testing.T) {
	of := func(input string) error {
		return &method.Error{Code: method.OutOfRange, Input: input, Limit: method.Between(1, 2, "")}
	}
	assert.Equal(t, of("layers/2/angle"), method.Below(of("angle"), "layers/2"))
	assert.Equal(t, of("layers/2"), method.Below(of(""), "layers/2"), "the place itself")
	assert.Equal(t, of("weight"), method.Named(of("mass"), "weight"))
	both := method.Below(errors.Join(of("a"), of("b")), "x")
	assert.Equal(t, errors.Join(of("x/a"), of("x/b")).Error(), both.Error())
	plain := errors.New("no input")
	assert.Equal(t, plain, method.Below(plain, "x"))
	assert.Equal(t, plain, method.Named(plain, "x"))
	require.NoError(t, method.Below(nil, "x"))
}
