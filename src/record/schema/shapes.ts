/** What was computed from the files beside the configuration: outlines of lakes, watersheds of pockets. */
export interface KeptShapeTable {
  /** Id of the lake. */
  lake: string;
  /** Id of the pocket whose watershed it is; '' for the lake's outline. */
  part: string;
  /** Hash of what it was computed from. */
  key: string;
  body_json: string;
}

export interface ShapeTables {
  kept_shape: KeptShapeTable;
}
