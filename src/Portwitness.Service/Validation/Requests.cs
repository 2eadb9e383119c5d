using System.Text;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Product.Catalogue;
using Portwitness.Text;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Validation;

/// <summary>The checks that several calls make of their fields.</summary>
internal static class Requests
{
    // Of what is refused, enough is said back to find it.
    private const int MaxNamed = 10;
    private const int MaxCharacters = 80;

    public static void CheckName(this InvalidRequest invalid, string field, string name, ServiceLimits limits)
    {
        if (name.Length > limits.NameCharacters)
        {
            invalid.AddTooMuch(field, $"{name.Length} characters long; at most {limits.NameCharacters} are taken.");
        }
    }

    public static void CheckText(this InvalidRequest invalid, string field, string text, ServiceLimits limits)
    {
        int bytes = Encoding.UTF8.GetByteCount(text);
        if (bytes > limits.TextBytes)
        {
            invalid.AddTooMuch(field, $"{bytes} bytes long; at most {limits.TextBytes} are taken.");
        }
    }

    public static void CheckLabel(this InvalidRequest invalid, string field, string label, ServiceLimits limits)
    {
        if (LabelLimits.Excess(label) is { } excess)
        {
            invalid.AddTooMuch(field, $"{excess}.");
        }
        else
        {
            invalid.CheckText(field, label, limits);
        }
    }

    public static RuleSet ReadRules(this InvalidRequest invalid, string field, Wire.RuleSelection? rules)
    {
        RuleSelection read = new() { Only = [.. rules?.Only ?? []], Without = [.. rules?.Without ?? []] };
        foreach (string name in RuleCatalogue.UnknownNames(read).Take(MaxNamed))
        {
            string meant = NearestName.Of(name, RuleCatalogue.Names.Order(StringComparer.Ordinal)) is { } nearest ? $" Did you mean '{nearest}'?" : "";
            invalid.Add(field, $"no rule is named '{name[..Math.Min(name.Length, MaxCharacters)]}'.{meant} The catalogue has them all (ListRules, or 'portwitness rules').");
        }

        return RuleCatalogue.Select(read);
    }

    public static Editions? ReadEdition(this InvalidRequest invalid, string field, string name)
    {
        if (name.Length == 0)
        {
            return null;
        }

        if (EditionNames.TryParse(name, out Editions edition))
        {
            return edition;
        }

        invalid.Add(field, "not an edition; expected R2.0, R3.0, R3.1 or R3.2, or nothing when it is not known.");
        return null;
    }
}
