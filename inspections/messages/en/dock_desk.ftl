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
