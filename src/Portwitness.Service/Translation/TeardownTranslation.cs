using Portwitness.Product;
using Portwitness.Product.Teardown;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>The ledger of a teardown.</summary>
internal static class TeardownTranslation
{
    public static void AddTeardown(this Wire.ProductReport report, ProductAnalysis analysis)
    {
        report.Teardown.AddRange(analysis.Teardown.Where(static entry => !entry.IsSearch).Select(ToContract));
        report.TeardownChecks.AddRange(analysis.FunctionChecks.Select(ToContract));
    }

    private static Wire.TeardownEntry ToContract(LedgerEntry entry) => new()
    {
        Ref = entry.Ref, Function = entry.Function, Marking = entry.Marking, Maker = entry.Maker, Package = entry.Package, Count = entry.Count, Photo = entry.Photo,
        Board = entry.Board, Side = entry.Side, Ratings = entry.Ratings, Source = entry.Source,
        Identified = entry.Identified switch
        {
            Identification.Read => "read",
            Identification.Datasheet => "datasheet",
            Identification.Inferred => "inferred",
            _ => "",
        },
    };

    private static Wire.TeardownCheck ToContract(FunctionCheck check) => new()
    {
        Function = check.Function, Wanted = check.Wanted, Found = check.Found, Inferred = check.Inferred, WantedFor = check.WantedFor,
        State = check.State switch
        {
            FunctionState.Found => "found",
            FunctionState.Inferred => "inferred",
            FunctionState.Absent => "absent",
            _ => "not accounted for",
        },
    };
}
