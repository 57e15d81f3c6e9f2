/** Pivot tables of a sheet, to be counted and asked for their sources; an add-in adds none here. */
import type { Pivot, SheetModel } from '../../model/index.ts';
import { fail } from '../error.ts';
import { HostCollection, HostObject } from '../object.ts';

export class PivotsObject extends HostCollection<PivotObject> {
  constructor(private readonly sheet: SheetModel) {
    super();
  }

  override items(): PivotObject[] {
    return this.sheet.layout.pivots.map((pivot) => new PivotObject(this.sheet, pivot.id));
  }

  override find(key: unknown): PivotObject | null {
    return this.items().find((pivot) => pivot.Id === key || pivot.Name === key) ?? null;
  }
}

export class PivotObject extends HostObject {
  override readonly scalars = ['id', 'name'];

  constructor(
    private readonly sheet: SheetModel,
    private readonly id: string,
  ) {
    super();
  }

  override identity(): Record<string, unknown> {
    return { Id: this.id };
  }

  private get pivot(): Pivot {
    return this.sheet.layout.pivots.find((pivot) => pivot.id === this.id) ?? fail('ItemNotFound');
  }

  get Id(): string {
    return this.id;
  }

  get Name(): string {
    return this.pivot.name;
  }

  GetDataSourceString(): string {
    return this.pivot.source;
  }
}
