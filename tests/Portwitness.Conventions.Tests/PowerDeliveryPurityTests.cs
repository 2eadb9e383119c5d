using System.Reflection;
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using System.Runtime.CompilerServices;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Conventions.Tests;

/// <summary>The wire project has no I/O, no clock, no floating point, and nothing that can change.</summary>
public class PowerDeliveryPurityTests
{
    private static readonly Assembly Assembly = typeof(MessageHeader).Assembly;

    private static readonly string[] ForbiddenNamespaces = ["System.IO", "System.Net", "System.Threading", "System.Data"];

    private static readonly string[] ForbiddenTypes =
    [
        "System.DateTime", "System.DateTimeOffset", "System.TimeProvider", "System.Diagnostics.Stopwatch", "System.Console",
        "System.Environment", "System.Random",
    ];

    [Fact]
    public void Assembly_RefersToNoInputOutputOrClock()
    {
        using FileStream file = File.OpenRead(Assembly.Location);
        using PEReader image = new(file);
        MetadataReader metadata = image.GetMetadataReader();
        IEnumerable<string> references = metadata.TypeReferences
            .Select(handle => metadata.GetTypeReference(handle))
            .Select(type => $"{metadata.GetString(type.Namespace)}.{metadata.GetString(type.Name)}")
            .ToList();

        references.Should().NotContain(name => ForbiddenTypes.Contains(name)
            || ForbiddenNamespaces.Any(space => name.StartsWith(space + ".", StringComparison.Ordinal)
                && !name.StartsWith("System.IO.Hashing.", StringComparison.Ordinal)));
    }

    [Fact]
    public void PublicMembers_UseNoFloatingPoint()
    {
        Type[] floating = [typeof(float), typeof(double), typeof(decimal), typeof(Half)];
        IEnumerable<string> members = Assembly.GetExportedTypes().SelectMany(type => type.GetMembers())
            .Where(member => member switch
            {
                PropertyInfo property => floating.Contains(property.PropertyType),
                FieldInfo field => floating.Contains(field.FieldType),
                MethodInfo method => floating.Contains(method.ReturnType)
                    || method.GetParameters().Any(parameter => floating.Contains(parameter.ParameterType)),
                _ => false,
            })
            .Select(member => $"{member.DeclaringType}.{member.Name}");

        members.Should().BeEmpty();
    }

    [Fact]
    public void PublicTypes_AreImmutable()
    {
        IEnumerable<Type> types = Assembly.GetExportedTypes().Where(type => !type.IsEnum);
        foreach (Type type in types)
        {
            type.GetFields().Where(field => !field.IsInitOnly && !field.IsLiteral).Should().BeEmpty($"{type} has a field");
            type.GetProperties().Where(IsSettable).Should().BeEmpty($"{type} has a property that can be set");
            if (type.IsValueType)
            {
                type.IsDefined(typeof(IsReadOnlyAttribute)).Should().BeTrue($"{type} is a readonly struct");
            }
        }
    }

    [Fact]
    public void EquatableStructs_HaveOperators()
    {
        foreach (Type type in Assembly.GetExportedTypes().Where(type => type.IsValueType && !type.IsEnum && !type.IsByRefLike))
        {
            type.GetMethod("op_Equality").Should().NotBeNull($"{type} can be compared");
        }
    }

    private static bool IsSettable(PropertyInfo property) => property.SetMethod is { IsPublic: true } setter
        && !setter.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(IsExternalInit));
}
