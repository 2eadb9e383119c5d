using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Csv;

/// <summary>A row for each object that a port offers under an arrangement.</summary>
public static class OfferCsv
{
    /// <summary>Writes the heading and the rows of all products. What was not seen, or an object does not have, is an empty cell.</summary>
    public static void Write(TextWriter writer, ReportSet set)
    {
        CsvRows.Write(
            writer, "source", "product", "port", "in use", "file", "edition", "message", "PDP (mW)", "object", "word", "kind", "least voltage (mV)",
            "most voltage (mV)", "current (mA)", "current above 15 V (mA)", "power (mW)", "flags");
        foreach (ReportedProduct product in set.Products)
        {
            ProductReport report = product.Read();
            foreach (PortReport port in report.Ports)
            {
                foreach (ArrangementReport arrangement in port.Arrangements.Where(static one => one.Offered is not null))
                {
                    foreach (PowerObject offered in arrangement.Offered.Objects)
                    {
                        OfferedAmounts amounts = OfferedAmounts.Of(offered);
                        CsvRows.Write(
                            writer, product.Source, report.Product, port.Port, string.Join(" + ", arrangement.InUse), arrangement.File, arrangement.Edition,
                            arrangement.Offered.MessageIndex, arrangement.Offered.HasPdpMw ? arrangement.Offered.PdpMw : null, offered.Position,
                            PowerObjectRow.Word(offered), amounts.Kind, amounts.LeastMv, amounts.MostMv, amounts.MostMa, amounts.MostAbove15Ma, amounts.MostMw,
                            string.Join(", ", PowerObjectFlags.Of(offered)));
                    }
                }
            }
        }
    }
}
