"""What happened at the dock: one noun a file."""
from inspections.records.models.claim import ClaimEntry, ClaimSide
from inspections.records.models.delivery import (
    BlackSpot,
    Carton,
    Decision,
    Delivery,
    DocketLine,
    Finding,
    Reading,
    Severity,
    State,
    Suggestion,
)
from inspections.records.models.equipment import Freezer, IcePointCheck, LastCheck, Thermometer
from inspections.records.models.job import Job, JobState, Need
from inspections.records.models.limits import LimitSet
from inspections.records.models.logger import LoggerFile
from inspections.records.models.order import Order, OrderLine
from inspections.records.models.photo import Advisory, Answer, Photo, PhotoReceipt, PhotoUse
from inspections.records.models.putaway import Addendum, AddendumKind, PutAway
from inspections.records.models.search import LineLot, SearchWord
from inspections.records.models.specification import Specification, SpecificationVersion
from inspections.records.models.supplier import Supplier

__all__ = [
    "Addendum", "AddendumKind", "Advisory", "Answer", "BlackSpot", "Carton", "ClaimEntry", "ClaimSide", "Decision",
    "Delivery", "DocketLine", "Finding", "Freezer", "IcePointCheck", "Job", "JobState", "LastCheck", "LimitSet",
    "LineLot", "LoggerFile", "Need", "Order", "OrderLine", "Photo", "PhotoReceipt", "PhotoUse", "PutAway", "Reading",
    "SearchWord", "Severity", "Specification", "SpecificationVersion", "State", "Suggestion", "Supplier", "Thermometer",
]  # fmt: skip
