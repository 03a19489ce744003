# What the later screens of the dock and the desk both say.

dock-thermometers-months =
    Jan
    Feb
    Mar
    Apr
    May
    Jun
    Jul
    Aug
    Sep
    Oct
    Nov
    Dec
dock-thermometers-checked =
    { $days ->
        [0] checked { $checked }, due today
        [1] checked { $checked }, due tomorrow
       *[other] checked { $checked }, due in { $days } days
    }

## thermometers.ts
dock-thermometers-no-check-in = no check in ice on record
dock-thermometers-failed-in-ice = failed in ice on { $checked }: read { $typeset }
dock-thermometers-check-overdue-since = check overdue since { $short_day }

## SetApart.svelte
dock-set-apart-no-carton-named = No cartons are entered. Nothing has been kept yet. Enter how many.
dock-set-apart-not-said-when = When this was is missing. Nothing has been kept yet. Enter the date and time.
dock-set-apart-not-said-where = Where they are is missing. Nothing has been kept yet. Enter the place.
dock-set-apart-not-said-who = Who collected them is missing. Nothing has been kept yet. Enter the carrier or the person.
dock-set-apart-not-said-who-2 = It is not said who decided. Nothing was kept yet. Enter the name.
dock-set-apart-not-said-why = It is not said why. Nothing was kept yet. Enter the reason.
dock-set-apart-refused-held-cartons = Refused and held cartons
dock-set-apart-stand-here = are here
dock-set-apart-were-fetched = were collected
dock-set-apart-held-ones-are = held ones are released for use
dock-set-apart-held-ones-are-2 = held ones are refused after all
dock-set-apart-text = { $name }: { $part }, of { $count }
dock-set-apart-decided-by = Decided by
dock-set-apart-fetched-by = Collected by
dock-set-apart-why = Why
dock-set-apart-where = Where
dock-set-apart-remark-if-any = Remark (if any)
dock-set-apart-when = When
dock-set-apart-keep = Keep this
dock-set-apart-leave = Leave it

# One's own passkeys, at the desk.
desk-passkeys-title = Your passkeys
desk-passkeys-what = A passkey signs you in by the finger, face or PIN that unlocks your phone or computer, without the password.
desk-passkeys-used = Last used on { $day }
desk-passkeys-unused = Not used yet
desk-passkeys-take-away = Take away
desk-passkeys-name = Name of the device, as you will know it again
desk-passkeys-password = Your password
desk-passkeys-add = Add a passkey on this device
desk-passkeys-not-made = No passkey was made. Nothing was changed. Begin again, or choose another device when the browser asks.
desk-passkeys-not-here = Passkeys need a browser of today and a server that is reached over HTTPS by a name.

# Photos that the worker gave up, at the desk.
desk-parked-title = Photos given up
desk-parked-what = The photos are kept as they were taken; what is missing is their small pictures or the advice on them. Look at them yourself, or let the worker try again.
desk-parked-standing = what was given up
desk-parked-none = No photo was given up.
desk-parked-again = Try again
