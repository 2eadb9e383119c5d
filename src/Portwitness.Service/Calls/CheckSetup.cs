using Portwitness.Analysis.Catalogue;
using Portwitness.Captures.Formats;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Product;
using Portwitness.Product.Decisions;
using Portwitness.Service.Translation;
using Portwitness.Service.Validation;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Calls;

/// <summary>Reads what a product is to be checked by.</summary>
internal static class CheckSetup
{
    /// <summary>A check that has not begun yet.</summary>
    /// <exception cref="Grpc.Core.RpcException">Something is wrong with the options: InvalidArgument.</exception>
    public static ProductCheck Read(Wire.CheckOptions options, ServiceLimits limits)
    {
        InvalidRequest invalid = new();
        Editions? edition = invalid.ReadEdition("options.edition", options.Edition);
        DecisionRule decision = options.Guard ? DecisionRule.Guarded : DecisionRule.Simple;
        RuleSet rules = invalid.ReadRules("options.rules", options.Rules);
        CaptureReadOptions reading = new();
        switch (options.SubjectCase)
        {
            case Wire.CheckOptions.SubjectOneofCase.Product:
                invalid.CheckName("options.product.file", options.Product.File, limits);
                invalid.CheckText("options.product.text", options.Product.Text, limits);
                break;
            case Wire.CheckOptions.SubjectOneofCase.Capture:
                invalid.CheckName("options.capture.file", options.Capture.File, limits);
                invalid.CheckName("options.capture.port", options.Capture.Port, limits);
                invalid.CheckLabel("options.capture.label", options.Capture.Label, limits);
                reading = invalid.ReadReading("options.capture.read", options.Capture.Read, limits);
                break;
            default:
                invalid.Add("options.subject", "missing; send a product file or name a capture.");
                break;
        }

        invalid.ThrowIfAny();
        ProductCheck check = options.SubjectCase == Wire.CheckOptions.SubjectOneofCase.Product
            ? ProductCheck.ForProduct(options.Product.File, options.Product.Text, edition, rules, decision)
            : ProductCheck.ForCapture(
                options.Capture.File, NullIfEmpty(options.Capture.Label), NullIfEmpty(options.Capture.Port), edition, rules, reading,
                options.Capture.Read?.Measurements?.File, decision);
        int files = check.LabelFiles.Count + check.Logs.Count + check.Captures.Count + check.Captures.Count(capture => capture.MeasurementsFile is not null);
        if (files <= limits.FilesPerProduct)
        {
            return check;
        }

        check.Dispose();
        throw InvalidRequest.TooMuch("options.product.text", $"names {files} files; at most {limits.FilesPerProduct} are taken.");
    }

    private static string? NullIfEmpty(string text) => text.Length == 0 ? null : text;
}
