using BenchmarkDotNet.Attributes;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.Product.Catalogue;

namespace Portwitness.Benchmarks;

/// <summary>One Source_Capabilities of seven objects, from bytes to findings, with all capability rules.</summary>
[MemoryDiagnoser]
public class CapabilityChecking
{
    private readonly byte[] _clean = Convert.FromHexString("A1712C9101082CD102002CB104004541060045B104E0563240C14132A4C1");
    private readonly byte[] _broken = Convert.FromHexString("A1712C910108C8D002002CB104004541060045B104E0563240C14132A4C1");
    private readonly OfferedObject[] _objects = new OfferedObject[MessageLimits.MaxExtendedObjects];
    private readonly SourceEvidence _evidence = new() { Editions = Editions.R32, Cable = CableEvidence.FiveAmpere };
    private readonly FindingLog _findings = new() { File = "benchmark" };

    [Benchmark(Baseline = true)]
    public int Clean() => Check(_clean);

    [Benchmark]
    public int Broken() => Check(_broken);

    private int Check(byte[] bytes)
    {
        MessageView.TryRead(bytes, out MessageView view);
        int count = CapabilityChecker.ReadObjects(view, [], _objects);
        Advertisement list = new(0, 1, view.Header.Kind, view.Header, ushort.MaxValue, [.. _objects.AsSpan(0, count)], [], 0, null, PdpBasis.None);
        CapabilityChecker.Check(list, _evidence, RuleCatalogue.Set, _findings);
        return _findings.Findings.Count;
    }
}
