using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Csv;

/// <summary>What ports offer, a row for each object under each arrangement; units are part of the headings, what is unknown is empty.</summary>
public static class OfferCsv
{
    /// <summary>Writes the offers of all products.</summary>
    public static void Write(TextWriter writer, ReportSet set)
    {
        CsvRow.WriteHeadings(
            writer, "source", "product", "port", "arrangement", "file", "edition", "cable", "message", "message_index", "time_us",
            "list_pdp_mw", "list_pdp_basis", "object_position", "word", "kind", "min_voltage_mv", "max_voltage_mv", "max_current_ma",
            "max_current_above_15v_ma", "max_power_mw", "remarks", "offered_for_us");
        foreach (ReportedProduct product in set.Products)
        {
            ProductReport report = product.Read();
            foreach (PortReport port in report.Ports)
            {
                foreach (ArrangementReport arrangement in port.Arrangements.Where(static one => one.Offered is not null))
                {
                    foreach (PowerObject offered in arrangement.Offered.Objects)
                    {
                        CsvRow row = Begin(product.Source, report.Product, port.Port, arrangement);
                        row.Add(offered.Position).Add(PowerObjectRow.Word(offered));
                        AddAmounts(row, offered);
                        row.Add(string.Join(", ", PowerObjectFlags.Of(offered)))
                            .Add(arrangement.Periods.Count > 0 ? arrangement.Periods.Sum(static period => period.UntilUs - period.FromUs) : null)
                            .Write(writer);
                    }
                }
            }
        }
    }

    private static CsvRow Begin(string source, string product, string port, ArrangementReport arrangement) => new CsvRow()
        .Add(source).Add(product).Add(port).Add(string.Join(" + ", arrangement.InUse)).Add(arrangement.File).Add(arrangement.Edition)
        .Add(arrangement.Cable).Add(arrangement.Offered.Message).Add(arrangement.Offered.MessageIndex).Add(arrangement.Offered.TimeUs)
        .Add(arrangement.Offered.HasPdpMw ? arrangement.Offered.PdpMw : null).Add(arrangement.Offered.PdpBasis);

    private static void AddAmounts(CsvRow row, PowerObject offered)
    {
        switch (offered.KindCase)
        {
            case PowerObject.KindOneofCase.Fixed:
                int? voltage = offered.Fixed.HasVoltageMv ? offered.Fixed.VoltageMv : null;
                int? current = offered.Fixed.HasMaxCurrentMa ? offered.Fixed.MaxCurrentMa : null;
                Add("fixed", voltage, voltage, current, null, Amounts.Milliwatts(voltage, current));
                break;
            case PowerObject.KindOneofCase.Battery:
                BatterySupply battery = offered.Battery;
                Add(
                    "battery", battery.HasMinVoltageMv ? battery.MinVoltageMv : null, battery.HasMaxVoltageMv ? battery.MaxVoltageMv : null,
                    null, null, battery.HasMaxPowerMw ? battery.MaxPowerMw : null);
                break;
            case PowerObject.KindOneofCase.Variable:
                VariableSupply variable = offered.Variable;
                Add(
                    "variable", variable.HasMinVoltageMv ? variable.MinVoltageMv : null, variable.HasMaxVoltageMv ? variable.MaxVoltageMv : null,
                    variable.HasMaxCurrentMa ? variable.MaxCurrentMa : null, null, null);
                break;
            case PowerObject.KindOneofCase.Pps:
                PpsSupply pps = offered.Pps;
                Add(
                    "PPS", pps.HasMinVoltageMv ? pps.MinVoltageMv : null, pps.HasMaxVoltageMv ? pps.MaxVoltageMv : null,
                    pps.HasMaxCurrentMa ? pps.MaxCurrentMa : null, null, null);
                break;
            case PowerObject.KindOneofCase.SprAvs:
                // 9 to 15 V, and to 20 V where a current is stated for it (R3.2v1.1, Table 6.14).
                SprAvsSupply avs = offered.SprAvs;
                Add(
                    "SPR AVS", 9_000, !avs.HasMaxCurrent20VMa ? null : avs.MaxCurrent20VMa > 0 ? 20_000 : 15_000,
                    avs.HasMaxCurrent15VMa ? avs.MaxCurrent15VMa : null, avs.HasMaxCurrent20VMa ? avs.MaxCurrent20VMa : null, null);
                break;
            case PowerObject.KindOneofCase.EprAvs:
                EprAvsSupply epr = offered.EprAvs;
                Add(
                    "EPR AVS", epr.HasMinVoltageMv ? epr.MinVoltageMv : null, epr.HasMaxVoltageMv ? epr.MaxVoltageMv : null,
                    null, null, epr.HasPdpW ? epr.PdpW * 1000L : null);
                break;
            default:
                Add(PowerObjectRow.Of(offered)[2], null, null, null, null, null);
                break;
        }

        void Add(string kind, int? minimum, int? maximum, int? amperes, int? above15, long? watts) =>
            row.Add(kind).Add(minimum).Add(maximum).Add(amperes).Add(above15).Add(watts);
    }
}
