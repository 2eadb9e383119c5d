using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Claims;
using Portwitness.Text;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads "claims:" of a product file.</summary>
internal sealed class ClaimsReader(YamlValues values)
{
    internal static readonly string[] Members =
        ["text", "source", "kind", "time", "share", "input", "output", "fills", "device", "device_wh", "mass_g", "size_mm", "watts", "port"];

    // In the order of the kinds, each with what it needs.
    internal static readonly string[] Kinds = ["time", "fills", "mass", "size", "power"];

    private static readonly string[] Examples =
    [
        "{text: half full in 30 minutes, source: box, kind: time, time: 30min, share: 50%, input: 30W}",
        "{text: fills a handset three times, source: page, kind: fills, fills: 3, device_wh: 19.35}",
        "{text: only 340 g, source: page, kind: mass, mass_g: 340}", "{text: 148 x 62 x 26 mm, source: page, kind: size, size_mm: [148, 62, 26]}",
        "{text: 65 W, source: box, kind: power, watts: 65, port: C1}",
    ];

    private const int MaxClaims = 200;
    private const int MaxMilliwattHours = 100_000_000;
    private const int MaxMilligrams = 100_000_000;
    private const int MaxFills = 1_000_000;
    private const int WholePpm = 1_000_000;

    /// <summary>The claims that can be judged.</summary>
    public ImmutableArray<ProductClaim> Read(YamlNode node) => [.. values.Items(node, "claims", MaxClaims).Select(Claim).OfType<ProductClaim>()];

    private ProductClaim? Claim(YamlNode node)
    {
        ProductClaim claim = new((ClaimKind)(-1), "", "");
        foreach ((YamlText key, YamlNode value) in values.Entries(node, "claims"))
        {
            if (Array.IndexOf(Members, key.Text) < 0)
            {
                values.Unknown(key, "a claim", Members);
            }
            else
            {
                claim = With(claim, key.Text, value);
            }
        }

        int kind = (int)claim.Kind;
        if (kind < 0)
        {
            values.Fault(node, ProductFaultCodes.ValueWrong, $"\"kind:\" of a claim is {string.Join(", ", Kinds)}, as {Examples[0]}");
            return null;
        }

        if (claim.Text.Length > 0 && IsEnough(claim))
        {
            return claim;
        }

        values.Fault(node, ProductFaultCodes.ValueWrong, $"a claim of this kind needs its words and its figures, as {Examples[kind]}");
        return null;
    }

    private static bool IsEnough(ProductClaim claim) => claim.Kind switch
    {
        ClaimKind.Time => claim.TimeUs is not null && (claim.Input is null || claim.Output is null),
        ClaimKind.Fills => claim.ThousandthsOfFills is not null && (claim.DeviceMilliwattHours is not null || claim.Device.Length > 0),
        ClaimKind.Mass => claim.MassMilligrams is not null,
        ClaimKind.Size => claim.Size is not null,
        _ => claim.Power is not null,
    };

    private ProductClaim With(ProductClaim claim, string member, YamlNode value) => member switch
    {
        "text" => claim with { Text = values.Text(value, member)?.Trim() ?? "" },
        "source" => claim with { Source = values.Text(value, member)?.Trim() ?? "" },
        "kind" => claim with { Kind = (ClaimKind)Array.IndexOf(Kinds, values.Text(value, member)) },
        "time" => claim with { TimeUs = Time(value) },
        "share" => claim with { SharePpm = Share(value) },
        "input" => claim with { Input = Watts(value, member) },
        "output" => claim with { Output = Watts(value, member) },
        "fills" => claim with { ThousandthsOfFills = values.Number(value, member, 1, MaxFills, 3) },
        "device" => claim with { Device = values.Text(value, member)?.Trim() ?? "" },
        "device_wh" => claim with { DeviceMilliwattHours = values.Number(value, member, 1, MaxMilliwattHours, 3) },
        "mass_g" => claim with { MassMilligrams = values.Number(value, member, 1, MaxMilligrams, 3) },
        "size_mm" => claim with { Size = new BatteryReader(values).Size(value) },
        "watts" => claim with { Power = Watts(value, member) },
        _ => claim with { Port = values.Text(value, member)?.Trim() ?? "" },
    };

    private long? Time(YamlNode node)
    {
        if (AmountWords.Microseconds(values.Text(node, "time") ?? "") is > 0 and long time)
        {
            return time;
        }

        values.Fault(node, ProductFaultCodes.ValueWrong, "a time was expected in \"time\", for example 90min");
        return null;
    }

    private int Share(YamlNode node)
    {
        if (new EnergyReader(values).Percent(node, "share") is not { } share)
        {
            return WholePpm;
        }

        if (share is > 0 and <= WholePpm)
        {
            return share;
        }

        values.Fault(node, ProductFaultCodes.ValueWrong, "\"share:\" is more than nothing and at most 100%");
        return WholePpm;
    }

    private Power? Watts(YamlNode node, string member)
    {
        string text = values.Text(node, member) ?? "";
        if ((AmountWords.Milliwatts(text) ?? AmountWords.Milliwatts($"{text}W")) is > 0 and int milliwatts)
        {
            return Power.FromMilliwatts(milliwatts);
        }

        values.Fault(node, ProductFaultCodes.ValueWrong, $"a power up to 1000 W was expected in \"{member}\", as 65 or 65W");
        return null;
    }
}
