// Package enquiry writes to those who deliver: what to ask makers of silencers and yards for, cut lists, acceptance.
package enquiry
