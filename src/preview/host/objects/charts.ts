/** Charts and comments of a sheet, to be counted and asked for their sources; an add-in adds none here. */
import type { Chart, SheetModel } from '../../model/index.ts';
import { fail } from '../error.ts';
import { HostCollection, HostObject } from '../object.ts';

export class ChartsObject extends HostCollection<ChartObject> {
  constructor(private readonly sheet: SheetModel) {
    super();
  }

  override items(): ChartObject[] {
    return this.sheet.layout.charts.map((chart) => new ChartObject(this.sheet, chart.id));
  }

  override find(key: unknown): ChartObject | null {
    return this.items().find((chart) => chart.Id === key || chart.Name === key) ?? null;
  }
}

export class ChartObject extends HostObject {
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

  private get chart(): Chart {
    return this.sheet.layout.charts.find((chart) => chart.id === this.id) ?? fail('ItemNotFound');
  }

  get Id(): string {
    return this.id;
  }

  get Name(): string {
    return this.chart.name;
  }

  get Series(): ChartSeriesListObject {
    return new ChartSeriesListObject(this.chart);
  }
}

export class ChartSeriesListObject extends HostCollection<ChartSeriesObject> {
  constructor(private readonly chart: Chart) {
    super();
  }

  override items(): ChartSeriesObject[] {
    return this.chart.series.map((_, index) => new ChartSeriesObject(this.chart, index));
  }

  /** Series have no ids: office.js asks for them by their place. */
  override find(key: unknown): ChartSeriesObject | null {
    return typeof key === 'number' ? (this.items()[key] ?? null) : null;
  }
}

export class ChartSeriesObject extends HostObject {
  override readonly scalars = ['name'];

  constructor(
    private readonly chart: Chart,
    private readonly index: number,
  ) {
    super();
  }

  get Name(): string {
    return this.chart.series[this.index]?.name ?? fail('ItemNotFound');
  }

  GetDimensionDataSourceString(dimension: unknown): string {
    const series = this.chart.series[this.index] ?? fail('ItemNotFound');
    if (dimension === 'Values' || dimension === 'YValues') return series.values;
    if (dimension === 'Categories' || dimension === 'XValues') return series.categories;
    return fail('InvalidArgument');
  }
}

export class CommentsObject extends HostCollection<CommentObject> {
  constructor(private readonly sheet: SheetModel) {
    super();
  }

  override items(): CommentObject[] {
    return this.sheet.layout.comments.map((comment) => new CommentObject(comment.id, comment.text));
  }

  override find(key: unknown): CommentObject | null {
    return this.items().find((comment) => comment.Id === key) ?? null;
  }
}

export class CommentObject extends HostObject {
  override readonly scalars = ['content', 'id'];

  constructor(
    readonly Id: string,
    readonly Content: string,
  ) {
    super();
  }

  override identity(): Record<string, unknown> {
    return { Id: this.Id };
  }
}
