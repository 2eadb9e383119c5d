using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules.Requests;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Catalogue;
using Portwitness.Testing.Compliance;
using Xunit.Abstractions;

namespace Portwitness.Negotiation.Tests;

/// <summary>
/// Every shipped device meets every compliant source, with every policy. The lists are computed from the standard's tables and the
/// requests judged by the project's own request rules, neither by the code under test.
/// </summary>
public class NegotiationSweepTests(ITestOutputHelper output)
{
    [Fact]
    public void EveryRequest_IsLegal()
    {
        int requests = 0;
        List<string> wrong = [];
        foreach ((CompliantSource source, SourceOffer offer, bool full) in Offers())
        {
            foreach (SinkDescription sink in ShippedSinks.All)
            {
                foreach (SinkPolicy policy in full ? SinkPolicy.All : [SinkPolicy.MostPower])
                {
                    SinkNegotiation negotiation = Negotiator.Of(offer, sink, policy);
                    negotiation.Start.Should().NotBeNull();
                    foreach (DeviceRequest request in new[] { negotiation.Start!, negotiation.Best! })
                    {
                        requests++;
                        wrong.AddRange(Broken(offer, request).Select(rule => $"{rule}: {sink.Name}, {policy.Name}, 0x{request.Request.Raw:X8}, {source}"));
                        wrong.AddRange(BeyondDevice(request, sink).Select(what => $"{what}: {sink.Name}, {policy.Name}, 0x{request.Request.Raw:X8}, {source}"));
                    }
                }
            }
        }

        output.WriteLine($"{requests} requests");
        string.Join('\n', wrong.Take(10)).Should().BeEmpty($"{wrong.Count} of {requests}");
        requests.Should().BeGreaterThan(500_000);
    }

    // No policy gives more power than the one that looks for it, and a shorter list never gives more.
    [Fact]
    public void MostPower_IsNotBeaten()
    {
        foreach ((CompliantSource source, SourceOffer offer, _) in Offers().Where(entry => entry.Full))
        {
            foreach (SinkDescription sink in ShippedSinks.All)
            {
                SinkNegotiation best = Negotiator.Of(offer, sink, SinkPolicy.MostPower);
                foreach (SinkPolicy policy in SinkPolicy.All)
                {
                    SinkNegotiation other = Negotiator.Of(offer, sink, policy);
                    (other.Power <= best.Power || best.GetsWish == Verdict.Holds).Should().BeTrue($"{policy.Name}: {sink.Name}, {source}");
                }

                best.CapabilityMismatch.Should().Be(best.GetsWish != Verdict.Holds);
                (best.Start!.Terms.Power <= best.Power || best.GetsWish == Verdict.Holds).Should().BeTrue($"{sink.Name}, {source}");
            }
        }
    }

    private static IEnumerable<(CompliantSource Source, SourceOffer Offer, bool Full)> Offers()
    {
        int count = 0;
        foreach (CompliantSource source in CompliantSources.AtFullPower().Concat(CompliantSources.Reduced()))
        {
            bool epr = source.IsEpr && source.CableMilliamperes == 5000;
            yield return (source, NegotiationRun.Offer(source.Spr, epr ? source.Epr : null), count++ % 20 == 0);
        }
    }

    private static IEnumerable<string> Broken(SourceOffer offer, DeviceRequest request)
    {
        int position = request.Request.ObjectPosition;
        ObservedRequest observed = new()
        {
            Place = default,
            Message = request.Message,
            Request = request.Request,
            Copy = request.InEprMode ? new SourcePowerObject(request.Terms.Offered.Raw) : null,
            SaysRevision3 = true,
            Offers = request.InEprMode ? offer.Epr : offer.Spr,
            EprMode = request.InEprMode,
            ByPartner = true,
            Answer = RequestAnswer.Accepted,
            NothingMissed = true,
        };
        FindingLog log = new() { File = "sweep" };
        foreach (RequestRule rule in RuleCatalogue.Set.Requests)
        {
            rule.Check(observed, log);
        }

        return log.Findings.Select(finding => finding.Rule);
    }

    // The words are read again: what goes over the wire must suit the device too.
    private static IEnumerable<string> BeyondDevice(DeviceRequest request, SinkDescription sink)
    {
        RequestTerms terms = RequestTerms.Read(request.Request, request.Terms.Offered.AsSource());
        if (terms.Current > sink.CableMaximum)
        {
            yield return "more than the cable carries";
        }

        if (terms.Voltage > Electrical.UnmarkedCableMaximumVoltage && terms.Shape != RequestShape.Pps && sink.Cable != CableEvidence.Epr)
        {
            yield return "more volts than the cable is good for";
        }

        if (terms.Voltage is { } voltage && terms.Current is { } current && voltage * current > sink.Wish + Power.FromMilliwatts(1))
        {
            yield return "more power than the device wants";
        }

        IEnumerable<SinkIntake> takes = terms.Shape switch
        {
            RequestShape.Pps => sink.Pps,
            RequestShape.Avs => sink.Avs,
            RequestShape.FixedVariable when terms.Voltage is not null => sink.Fixed,
            _ => sink.Variable,
        };
        if (terms.Voltage is { } at && !takes.Any(intake => intake.Minimum <= at && at <= intake.Maximum && !(terms.Current > intake.Most)))
        {
            yield return "what the device does not take";
        }
    }
}
