/**
 * The inspection document as this phone writes it: the shared shapes of `trade/types`, with every
 * key present. A null still means "not checked": never zero, never a pass.
 */
import type * as shapes from "../trade/types";

export type {
  Addendum,
  Decision,
  Judgement,
  LimitSet,
  LineVerdict,
  Marks,
  Particular,
  PhotoPurpose,
  ProbeMethod,
  Reading,
  Reason,
  Refusal,
  SamplingDrawn,
  Signature,
  Specification,
  Suggestion,
  Unit,
} from "../trade/types";

export type Label = Required<shapes.Label>;
export type Sample = Required<shapes.Sample>;
export type Carton = Required<Omit<shapes.Carton, "label" | "sample" | "position" | "dehydration">> & {
  position: number;
  dehydration?: shapes.Carton["dehydration"];
  label: Label | null;
  sample: Sample | null;
};
export type Line = Required<Omit<shapes.Line, "cartons" | "cartons_on_docket" | "sorted" | "left_out">> &
  Pick<shapes.Line, "sorted" | "left_out"> & {
    cartons_on_docket: number;
    cartons: Carton[];
  };
type Probed = "thermometer_id" | "thermometer";
type VehicleEntry = NonNullable<shapes.InspectionDocument["vehicle"]>;
export type Vehicle = Required<Omit<VehicleEntry, Probed>> & Pick<VehicleEntry, Probed>;
export type Inspection = Required<Omit<shapes.InspectionDocument, "lines" | "vehicle">> & {
  vehicle: Vehicle;
  lines: Line[];
};

export interface Seal {
  number: number;
  sha256: string;
  previous_sha256: string | null;
  signature: string;
  public_key_id: string;
  sealed_at: string;
}
