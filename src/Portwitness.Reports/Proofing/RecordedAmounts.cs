using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Proofing;

/// <summary>Every amount of a report that an article may speak of.</summary>
internal sealed class RecordedAmounts
{
    private readonly AmountList _list = new();
    private readonly PrintedAmounts _printed;

    /// <summary>Takes a report apart.</summary>
    public RecordedAmounts(ProductReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        _printed = new PrintedAmounts(_list);
        if (report.Label is { } label)
        {
            _printed.Add(label, report.LabelName.Length > 0 ? report.LabelName : "label");
        }

        foreach (FurtherLabel further in report.FurtherLabels.Where(static further => further.Label is not null))
        {
            _printed.Add(further.Label, further.Name);
        }

        MeasuredAmounts measured = new(_list);
        foreach (PortReport port in report.Ports)
        {
            foreach (ArrangementReport arrangement in port.Arrangements)
            {
                measured.Add(arrangement.LabelPort.Length > 0 ? arrangement.LabelPort : port.Port, arrangement);
            }
        }

        foreach (PowerLog log in report.PowerLogs)
        {
            measured.Add(log);
        }

        foreach (SoakResult soak in report.Soaks)
        {
            measured.Add(soak);
        }

        foreach (AdapterResult adapter in report.Adapter.Where(static adapter => adapter.HasAverageEfficiencyPpm))
        {
            measured.Add(adapter);
        }

        foreach (PassThrough through in report.PassThrough)
        {
            measured.Add(through);
        }

        foreach (NeighbourChange change in report.NeighbourChanges.Where(static change => change.Interruption is { HasEndUs: true }))
        {
            measured.Add(change);
        }

        new ToldAmounts(_list).Add(report);
    }

    /// <summary>All amounts.</summary>
    public IReadOnlyList<RecordedAmount> All => _list.All;

    /// <summary>Outputs that are a cable of the product.</summary>
    public IReadOnlyCollection<string> Cables => _printed.Cables;

    /// <summary>The ports that are named.</summary>
    public IReadOnlyCollection<string> Ports => _list.Ports;
}
